#!/bin/sh
# Starts benchstroke on the Java that was installed with it.
home=$(dirname "$(dirname "$(readlink -f "$0")")")
# The archive of classes holds where the program was installed. Named elsewhere, Java would go
# without its own archive, too.
classes=-Xshare:auto
if [ "$home" = /opt/benchstroke ] && [ -f "$home/lib/benchstroke.jsa" ]; then
  classes=-XX:SharedArchiveFile=$home/lib/benchstroke.jsa
fi
# Room for what a judgement needs: it then comes and goes without a collection or with few.
exec "$home/runtime/bin/java" "$classes" -Xlog:cds=error -Xlog:cds+dynamic=error \
  -XX:TieredStopAtLevel=1 -XX:+UseSerialGC -Xms128m -XX:NewSize=64m \
  -Dbenchstroke.program=benchstroke \
  -cp "$home/lib/benchstroke.jar" org.benchstroke.cli.Main "$@"
