; Installer for Windows, for one user, without rights of an administrator.
;
; NOT RUN HERE: the script compiles (makensis), but the folder it packs has to be made by
; packaging/build_folder.py on Windows, and the installer has not been started on Windows yet.
;
;   py -3.12 packaging\build_folder.py --out dist
;   makensis /DVERSION=0.1.0 /DFOLDER=..\..\dist\showside packaging\windows\showside.nsi

Unicode true
!ifndef VERSION
  !error "say /DVERSION=…"
!endif
!ifndef FOLDER
  !error "say /DFOLDER=…, the folder that build_folder.py made"
!endif

!include "MUI2.nsh"
!define ID "org.showside.showside"
!define UNINSTALL "Software\Microsoft\Windows\CurrentVersion\Uninstall\${ID}"
!define CLASSES "Software\Classes"

Name "Showside"
!ifndef OUT
  !define OUT "showside-${VERSION}-setup.exe"
!endif
OutFile "${OUT}"
InstallDir "$LOCALAPPDATA\Programs\Showside"
InstallDirRegKey HKCU "Software\Showside" "Folder"
RequestExecutionLevel user
SetCompressor /SOLID lzma
VIProductVersion "${VERSION}.0"
VIAddVersionKey "ProductName" "Showside"
VIAddVersionKey "FileDescription" "Showside ${VERSION}"
VIAddVersionKey "FileVersion" "${VERSION}"
VIAddVersionKey "LegalCopyright" "The Showside authors, MIT licence"

!insertmacro MUI_PAGE_LICENSE "..\..\LICENSE"
!insertmacro MUI_PAGE_DIRECTORY
!insertmacro MUI_PAGE_INSTFILES
!insertmacro MUI_UNPAGE_CONFIRM
!insertmacro MUI_UNPAGE_INSTFILES
!insertmacro MUI_LANGUAGE "English"
!insertmacro MUI_LANGUAGE "German"

; "Open with" offers Showside; what opens these files by default stays the user's choice.
!macro OpenWith SUFFIX
  WriteRegStr HKCU "${CLASSES}\${SUFFIX}\OpenWithProgids" "${ID}" ""
!macroend
!macro NotOpenWith SUFFIX
  DeleteRegValue HKCU "${CLASSES}\${SUFFIX}\OpenWithProgids" "${ID}"
!macroend

Section "Showside"
  ; An older version goes first, so that no file of it is left to be loaded.
  IfFileExists "$INSTDIR\showside.exe" 0 +2
    RMDir /r "$INSTDIR\_internal"
  SetOutPath "$INSTDIR"
  File /r "${FOLDER}/*"
  WriteUninstaller "$INSTDIR\uninstall.exe"
  CreateShortcut "$SMPROGRAMS\Showside.lnk" "$INSTDIR\showside.exe"

  WriteRegStr HKCU "Software\Showside" "Folder" "$INSTDIR"
  WriteRegStr HKCU "${CLASSES}\${ID}" "" "Part or job"
  WriteRegStr HKCU "${CLASSES}\${ID}\DefaultIcon" "" "$INSTDIR\showside.exe,0"
  WriteRegStr HKCU "${CLASSES}\${ID}\shell\open\command" "" '"$INSTDIR\showside.exe" "%1"'
  !insertmacro OpenWith ".3mf"
  !insertmacro OpenWith ".stl"
  !insertmacro OpenWith ".obj"
  !insertmacro OpenWith ".ply"
  !insertmacro OpenWith ".off"
  !insertmacro OpenWith ".step"
  !insertmacro OpenWith ".stp"

  WriteRegStr HKCU "${UNINSTALL}" "DisplayName" "Showside"
  WriteRegStr HKCU "${UNINSTALL}" "DisplayVersion" "${VERSION}"
  WriteRegStr HKCU "${UNINSTALL}" "DisplayIcon" "$INSTDIR\showside.exe"
  WriteRegStr HKCU "${UNINSTALL}" "Publisher" "The Showside authors"
  WriteRegStr HKCU "${UNINSTALL}" "UninstallString" '"$INSTDIR\uninstall.exe"'
  WriteRegDWORD HKCU "${UNINSTALL}" "NoModify" 1
  WriteRegDWORD HKCU "${UNINSTALL}" "NoRepair" 1
SectionEnd

Section "Uninstall"
  RMDir /r "$INSTDIR\_internal"
  Delete "$INSTDIR\showside.exe"
  Delete "$INSTDIR\uninstall.exe"
  RMDir "$INSTDIR"
  Delete "$SMPROGRAMS\Showside.lnk"
  !insertmacro NotOpenWith ".3mf"
  !insertmacro NotOpenWith ".stl"
  !insertmacro NotOpenWith ".obj"
  !insertmacro NotOpenWith ".ply"
  !insertmacro NotOpenWith ".off"
  !insertmacro NotOpenWith ".step"
  !insertmacro NotOpenWith ".stp"
  DeleteRegKey HKCU "${CLASSES}\${ID}"
  DeleteRegKey HKCU "${UNINSTALL}"
  DeleteRegKey HKCU "Software\Showside"
SectionEnd
