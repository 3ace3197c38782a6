#!/bin/sh
# Starts benchstroke on the Java that was installed with it.
home=$(dirname "$(dirname "$(readlink -f "$0")")")
# The archive of classes holds where the program was installed; elsewhere Java goes without it.
exec "$home/runtime/bin/java" \
  -XX:SharedArchiveFile="$home/lib/benchstroke.jsa" -Xlog:cds=error -Xlog:cds+dynamic=error \
  -XX:TieredStopAtLevel=1 -XX:+UseSerialGC -Dbenchstroke.program=benchstroke \
  -cp "$home/lib/benchstroke.jar" org.benchstroke.cli.Main "$@"
