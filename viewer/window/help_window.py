"""The help: all pages in one window beside the program, searched through, opened where needed."""

from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QDesktopServices, QKeySequence, QShortcut, QTextCursor, QTextDocument
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QSplitter,
    QTextBrowser,
    QTextEdit,
    QVBoxLayout,
    QWidget,
)

from viewer.window.help_texts import PAGES, Section, all_sections, page_markdown, search
from viewer.window.page_text import page_text
from viewer.words import say, spoken_language

SIZE_PX, LIST_PX, INDENT = (940, 680), 280, "     "


class HelpWindow(QDialog):
    """A list of pages and sections at the left, or what was found; the page at the right."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Help"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.resize(*SIZE_PX)
        self.words = QLineEdit()
        self.words.setPlaceholderText(say("Search the help"))
        self.words.setAccessibleName(say("Search the help"))
        self.words.setToolTip(say("Shows the sections that have all these words"))
        self.words.setClearButtonEnabled(True)
        self.list = QListWidget()
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setAccessibleName(say("Pages and sections"))
        self.list.setToolTip(say("Choose one to read it"))
        self.list.setWordWrap(True)
        self.count = page_text(quiet=True)
        self.page = QTextBrowser()
        self.page.setOpenLinks(False)
        self.page.anchorClicked.connect(_open_in_browser)
        self._shown_page = ""
        self._lay_out()
        self.words.textChanged.connect(self._search)
        self.words.returnPressed.connect(self.page.setFocus)
        self.list.currentItemChanged.connect(self._chosen)
        find = QShortcut(QKeySequence(QKeySequence.StandardKey.Find), self)
        find.activated.connect(self._to_search)
        self._search("")

    def _lay_out(self) -> None:
        left = QWidget()
        inside = QVBoxLayout(left)
        inside.setContentsMargins(0, 0, 0, 0)
        for piece in (self.words, self.count, self.list):
            inside.addWidget(piece)
        split = QSplitter()
        split.addWidget(left)
        split.addWidget(self.page)
        split.setStretchFactor(1, 1)
        split.setSizes([LIST_PX, SIZE_PX[0] - LIST_PX])
        split.setChildrenCollapsible(False)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, parent=self)
        buttons.rejected.connect(self.close)
        for each in buttons.buttons():
            each.setAutoDefault(False)
        layout = QVBoxLayout(self)
        layout.addWidget(split, 1)
        line = QHBoxLayout()
        line.addWidget(buttons)
        layout.addLayout(line)

    # --- for the program
    def open_at(self, page: str, number: int = 0) -> None:
        """Show a section of a page, with the list of all beside it."""
        self.words.clear()
        for row in range(self.list.count()):
            section = self.list.item(row).data(Qt.ItemDataRole.UserRole)
            if (section.page, section.number) == (page, number):
                self.list.setCurrentRow(row)
                break
        self.page.setFocus()

    @property
    def shown(self) -> Section | None:
        """The section that is chosen."""
        item = self.list.currentItem()
        return None if item is None else item.data(Qt.ItemDataRole.UserRole)

    # --- the list
    def _to_search(self) -> None:
        self.words.setFocus()
        self.words.selectAll()

    def _search(self, text: str) -> None:
        wanted = text.strip()
        sections = search(wanted) if wanted else all_sections(spoken_language())
        self.list.blockSignals(True)
        self.list.clear()
        for section in sections:
            within = section.number > 0 and not wanted
            item = QListWidgetItem((INDENT if within else "") + section.title)
            item.setToolTip(say(PAGES[section.page]))
            item.setData(Qt.ItemDataRole.UserRole, section)
            font = item.font()
            font.setBold(section.number == 0 and not wanted)
            item.setFont(font)
            self.list.addItem(item)
        self.list.blockSignals(False)
        if not wanted:
            self.count.setText(say("All pages"))
        elif sections:
            self.count.setText(say("Sections found: {found}", found=len(sections)))
        else:
            self.count.setText(say("Nothing found; try fewer or shorter words."))
        self.page.setExtraSelections([])
        if sections:
            self.list.setCurrentRow(0)

    def _chosen(self, item: QListWidgetItem | None, _: object = None) -> None:
        if item is None:
            return
        section: Section = item.data(Qt.ItemDataRole.UserRole)
        if section.page != self._shown_page:
            self._shown_page = section.page
            self.page.setMarkdown(page_markdown(section.page))
            self.page.setAccessibleName(say(PAGES[section.page]))
        self._scroll_to(section.number)
        self._mark_found()

    def _scroll_to(self, number: int) -> None:
        block, found = self.page.document().begin(), -1
        while block.isValid():
            found += block.blockFormat().headingLevel() > 0
            if found == number:
                break
            block = block.next()
        self.page.setTextCursor(QTextCursor(block))
        place = self.page.document().documentLayout().blockBoundingRect(block)
        self.page.verticalScrollBar().setValue(int(place.top()) if number else 0)

    def _mark_found(self) -> None:
        """Lay the colour of a selection under every word that was searched for."""
        marks = []
        for word in self.words.text().split():
            cursor = QTextCursor(self.page.document())
            while True:
                cursor = self.page.document().find(word, cursor, QTextDocument.FindFlag(0))
                if cursor.isNull():
                    break
                mark = QTextEdit.ExtraSelection()
                mark.cursor = cursor
                mark.format.setBackground(self.palette().highlight())
                mark.format.setForeground(self.palette().highlightedText())
                marks.append(mark)
        self.page.setExtraSelections(marks)


def _open_in_browser(address: QUrl) -> None:
    QDesktopServices.openUrl(address)
