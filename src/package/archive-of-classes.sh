#!/bin/sh
# Makes Java's archive of classes for the place where the program will be: of all that its own Java
# loads there for a test, for a judgement, for a certificate and for the help. Runs in a namespace
# of its own, which sees the new /opt in the place of that of this machine.
#   unshare -r -m sh src/package/archive-of-classes.sh OPT WORK
set -eu
mount --bind "$1" /opt
work=$2
home=/opt/benchstroke
mkdir -p "$work"

# With a key of its own: whoever builds keeps theirs out of it.
unset BENCHSTROKE_ARCHIVE BENCHSTROKE_SHOP BENCHSTROKE_PASSPHRASE
BENCHSTROKE_KEYS=$work/key XDG_CONFIG_HOME=$work/key
export BENCHSTROKE_KEYS XDG_CONFIG_HOME

loaded() {
  list=$1
  shift
  "$home/runtime/bin/java" -XX:+UseSerialGC -Xlog:disable -Xlog:all=error:stderr \
    -XX:DumpLoadedClassList="$work/$list.classes" \
    -cp "$home/lib/benchstroke.jar" org.benchstroke.cli.Main "$@" >"$work/$list.txt" 2>&1
}

loaded demo demo --time-scale 100 --records "$work/records"
record=$(ls "$work"/records/*.jsonl)
loaded judge judge "$record"
loaded paper report "$record" --paper certificate --out "$work/certificate.pdf"
loaded help --help

# Each class once, in the order of loading. With this collector Java's own objects go in, too.
awk '!seen[$0]++' "$work"/*.classes >"$work/all.list"
"$home/runtime/bin/java" -Xshare:dump -XX:+UseG1GC -Xlog:disable -Xlog:all=error:stderr \
  -XX:SharedClassListFile="$work/all.list" \
  -XX:SharedArchiveFile="$home/lib/benchstroke.jsa" -cp "$home/lib/benchstroke.jar"
