#!/usr/bin/env bash
# Holds what two builds of the program make of the same plans against each
# other, byte by byte: every paper, list and exchange file and the JSON of runs,
# checks, cuts and quotes, of every fixture and of a draft of every layout.
#
#     tests/compare/papers.sh BEFORE AFTER [FOLDER]
#
# BEFORE and AFTER are binaries. With FOLDER what they made stays there. Layouts
# beside the project are read too where they are (`../shared/data/plans`, or the
# folder named by WIREWEND_DATA). Exit 1 where anything differs.
set -euo pipefail
before=$(realpath "$1") after=$(realpath "$2")
cd "$(dirname "$0")/../.."
data=${WIREWEND_DATA:-../shared/data}
out=${3:-$(mktemp -d)}
[ -n "${3:-}" ] || trap 'rm -rf "$out"' EXIT

# What one build makes of one plan. What a command prints counts as well, but
# not the folder it wrote to.
make() {
    local program=$1 plan=$2 into=$3 verb
    mkdir -p "$into"
    cp "$plan" "$into/plan.wend"
    chmod u+w "$into/plan.wend"
    for verb in runs check cuts quote materials; do
        (cd "$into" && "$program" $verb plan.wend --json >"$verb.json" 2>"$verb.said") || true
        (cd "$into" && "$program" $verb plan.wend >"$verb.txt" 2>&1) || true
    done
    (cd "$into" && "$program" papers plan.wend --to papers >papers.said 2>&1) || true
}

draft() {
    local program=$1 layout=$2 into=$3 regime
    for regime in as-nzs bs iec; do
        mkdir -p "$into-$regime"
        cp "$layout" "$into-$regime/layout.json"
        chmod u+w "$into-$regime/layout.json"
        (cd "$into-$regime" && "$program" draft layout.json --regime $regime --to drafted.wend >draft.txt 2>&1) || true
        [ ! -e "$into-$regime/drafted.wend" ] || make "$program" "$into-$regime/drafted.wend" "$into-$regime/made"
    done
}

plans=0
for plan in fixtures/*.wend; do
    name=$(basename "$plan" .wend)
    make "$before" "$plan" "$out/before/$name"
    make "$after" "$plan" "$out/after/$name"
    plans=$((plans + 1))
done
for layout in fixtures/layouts/*.json fixtures/layouts/*/*.json "$data"/plans/*.json; do
    [ -e "$layout" ] || continue
    # The block of 44 flats takes minutes; it is left to those who ask for it.
    case $layout in *swiss_block*) [ -n "${ALL:-}" ] || continue ;; esac
    name=layout-$(basename "$layout" .json)
    [ ! -e "$out/before/$name-bs" ] || continue
    draft "$before" "$layout" "$out/before/$name"
    draft "$after" "$layout" "$out/after/$name"
    plans=$((plans + 3))
done
[ -d "$data/plans" ] || echo "NOT CHECKED: layouts beside the project; no $data/plans here"
files=$(find "$out/before" -type f | wc -l)
if diff -rq "$out/before" "$out/after"; then
    echo "$plans plans, $files files: all the same"
else
    echo "$plans plans, $files files: not all the same"
    exit 1
fi
