#!/bin/sh
# Showside.app and a disk image of it, on a Mac with Apple silicon (macOS 14 or newer).
#
# NOT RUN HERE: written for, but never run on, a Mac. Without a certificate the app is signed for the
# machine at hand only; others have to open it by right click > Open the first time.
#
#   python3 -m venv build-env
#   build-env/bin/pip install --require-hashes -r packaging/requirements-pack.lock
#   PYTHON=build-env/bin/python SIGN="Developer ID Application: …" packaging/macos/build_app.sh
set -eu
cd "$(dirname "$0")/../.."
python="${PYTHON:-python3}"
sign="${SIGN:--}" # "-": for this machine only
out=dist

"$python" packaging/build_folder.py --out "$out" # the spec makes Showside.app beside the folder
app="$out/Showside.app"
find "$app" \( -name '*.so' -o -name '*.dylib' \) -exec codesign --force --timestamp --sign "$sign" {} +
codesign --force --options runtime --timestamp --sign "$sign" "$app"
codesign --verify --deep --strict "$app"

image="$out/showside.dmg"
rm -f "$image"
hdiutil create -volname Showside -srcfolder "$app" -fs HFS+ -format UDZO "$image"
echo "$image: $(du -m "$image" | cut -f1) MB"
# For others: xcrun notarytool submit "$image" --wait --keychain-profile …; xcrun stapler staple "$image"
