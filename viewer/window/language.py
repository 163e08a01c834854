"""View > Language: which language the window speaks, with Qt's own words and number fields."""

from collections.abc import Callable

from PySide6.QtCore import QLibraryInfo, QLocale, QTranslator
from PySide6.QtWidgets import QApplication, QMainWindow

from viewer.window.recent_files import settings
from viewer.words import ENGLISH, LANGUAGES, say, speak

DESKTOP = "desktop"
CHOICES = (DESKTOP, *LANGUAGES)
# A language is spoken in one country's manner of writing numbers.
LOCALES = {"en": "en_GB", "de": "de_DE"}


def language_choice() -> str:
    """What View > Language was set to last, one of CHOICES."""
    kept = str(settings().value("language", DESKTOP))
    return kept if kept in CHOICES else DESKTOP


def language_of(choice: str) -> str:
    """The language that a choice stands for; English where the desktop's is not known here."""
    if choice != DESKTOP:
        return choice
    return next(
        (name[:2] for name in QLocale.system().uiLanguages() if name[:2] in LANGUAGES), ENGLISH
    )


def speak_as_chosen(application: QApplication) -> None:
    """Speak the chosen language from now on; to be called before a window is made."""
    speak_in(application, language_of(language_choice()))


def speak_in(application: QApplication, language: str) -> None:
    """Speak `language`, a key of LANGUAGES: our words, those of Qt's dialogs, number fields."""
    speak(language)
    QLocale.setDefault(QLocale(LOCALES[language]))
    for old in application.findChildren(QTranslator):
        application.removeTranslator(old)
        old.setParent(None)
    folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
    words = QTranslator(application)
    if words.load(f"qtbase_{language}", folder):
        application.installTranslator(words)


def language_verbs(window: QMainWindow) -> dict[str, Callable[..., object]]:
    """What View > Language does."""
    return {f"language_{choice}": lambda *_, c=choice: choose(window, c) for choice in CHOICES}


def choose(window: QMainWindow, choice: str) -> None:
    """Keep the choice, and say when it comes into force."""
    settings().setValue("language", choice)
    name = LANGUAGES[language_of(choice)]
    window.notice.say(say("From the next start on Showside speaks {language}.", language=name))
