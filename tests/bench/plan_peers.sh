#!/bin/sh
# W3 with Trialfit and with SciPy's mixed-integer solver (HiGHS), each file on both sides in turn in
# one run; prints both costs, both times and the ratio. usage: plan_peers.sh BENCH_PLAN [SPEC...]
# (all w3 specs beside this script when none is named). Needs python3-scipy for the peer.
here=$(cd "$(dirname "$0")" && pwd)
bench=${1:?"usage: plan_peers.sh path/to/bench_plan [SPEC...]"}
shift
[ $# -gt 0 ] || set -- "$here"/spec/w3_*.txt
python=
for each in python3 /usr/bin/python3; do
  if "$each" -c 'from scipy.optimize import milp' 2>/dev/null; then python=$each; break; fi
done
[ -n "$python" ] || echo "no python3-scipy here: Trialfit's side only" >&2
printf '%-18s %12s %12s %10s %12s %8s\n' work cost "peer's cost" ms "peer's ms" ratio
for spec in "$@"; do
  ours=$("$bench" --plain "$spec")
  theirs=
  if [ -n "$python" ]; then theirs=$("$python" "$here"/peers/w3_milp.py "$spec"); fi
  echo "$ours | $theirs" | awk '{
    for (i = 1; i <= NF; i++) {
      if ($i == "|") after = 1
      if ($i == "cost") { if (after) peer_cost = $(i+1); else cost = $(i+1) }
      if ($i == "ms") { if (after) peer_ms = $(i-1); else ms = $(i-1) }
      if ($i == "proven" && $(i+1) != 1) cost = cost "?"
    }
    ratio = peer_ms == "" ? "" : sprintf("%.0f", peer_ms / ms)
    printf "%-18s %12s %12s %10s %12s %8s\n", $1, cost, peer_cost, ms, peer_ms, ratio
  }'
done
