#!/bin/sh
# Installs a package for Debian into an empty root by dpkg itself, runs the demo from where it would
# be, removes it, and looks for what it left. Changes nothing on this machine: it works in user
# namespaces, and skips with a word where there are none.
#   src/package/try-package.sh target/package/benchstroke_*.deb
set -eu

skip() {
  echo "skipped: $1"
  exit 0
}

if [ "${1:-}" != inside ]; then
  [ $# -eq 1 ] || { echo "usage: $0 PACKAGE.deb" >&2; exit 2; }
  deb=$(readlink -f "$1")
  command -v dpkg >/dev/null || skip "dpkg is not installed"
  unshare -r -m true 2>/dev/null || skip "unshare can't make a user namespace here"
  work=$(mktemp -d)
  trap 'rm -rf "$work"' EXIT
  unshare -r -m sh "$0" inside "$deb" "$work"
  exit
fi

deb=$2
work=$3
root=$work/root
mkdir -p "$root/var/lib/dpkg/info" "$root/var/lib/dpkg/updates" "$work/home"
: >"$root/var/lib/dpkg/status"
dpkg="dpkg --root=$root --log=$work/log --force-depends --force-not-root --force-script-chrootless"

listed() {
  find "$root" -path "$root/var/lib/dpkg" -prune -o -print | sort
}

listed >"$work/before"
$dpkg --install "$deb" >"$work/said" 2>&1 || { cat "$work/said"; exit 1; }
dpkg --root="$root" --verify benchstroke

# At its later place, as the archive of classes has it.
mount --bind "$root/opt" /opt
# Nobody's own key, shop file or archive has a part in it.
unset BENCHSTROKE_SHOP BENCHSTROKE_ARCHIVE BENCHSTROKE_PASSPHRASE
PATH=$root/usr/bin:$PATH HOME=$work/home BENCHSTROKE_KEYS=$work/keys XDG_CONFIG_HOME=$work/config
export PATH HOME BENCHSTROKE_KEYS XDG_CONFIG_HOME
cd "$work"
loads=$(JDK_JAVA_OPTIONS=-Xlog:class+load benchstroke --version)
echo "$loads" | grep -q 'cli.Main source: shared objects file' ||
  { echo "the archive of classes is not used"; exit 1; }
benchstroke --version
benchstroke demo --records "$work/records" --time-scale 20 >"$work/said"
grep PASSED "$work/said"
grep -q "^  benchstroke --help" "$work/said" || { echo "the demo names another program"; exit 1; }
benchstroke verify "$work"/records/*.jsonl
umount /opt

# Everything that it shows people is there, and for each command a page.
for file in share/man/man1/benchstroke.1.gz share/man/man1/benchstroke-run.1.gz \
  share/applications/benchstroke.desktop share/icons/hicolor/scalable/apps/benchstroke.svg \
  share/bash-completion/completions/benchstroke share/zsh/vendor-completions/_benchstroke \
  share/doc/benchstroke/copyright share/doc/benchstroke/NOTICE \
  share/doc/benchstroke/licenses/postgresql-jar/META-INF/LICENSE \
  share/doc/benchstroke/licenses/openhtmltopdf-core-jar/META-INF/LICENSE-LGPL-2.1.txt \
  share/doc/benchstroke/bom.cdx.json; do
  [ -s "$root/usr/$file" ] || { echo "missing: /usr/$file"; exit 1; }
done

$dpkg --purge benchstroke >"$work/said" 2>&1 || { cat "$work/said"; exit 1; }
listed >"$work/after"
cmp "$work/before" "$work/after" || { diff "$work/before" "$work/after"; exit 1; }
echo "installed, run and removed without a trace"
