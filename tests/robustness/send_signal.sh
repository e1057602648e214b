# SPDX-License-Identifier: GPL-3.0-or-later
# send_signal.sh SIGNAL FILE PROGRAM ARGUMENTS...: runs the program and sends it the signal as soon as
# the file is there. Ends with its status.
signal=$1 file=$2
shift 2
# What runs in the background of a shell is started with INT ignored.
env --default-signal=INT,TERM,HUP "$@" &
until [ -e "$file" ] || ! kill -0 $! 2>/dev/null; do sleep 0.02; done
kill -s "$signal" $!
wait $!
