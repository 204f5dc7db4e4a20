/**
 * One example for each command, as lines of a shell; they run in this order in one folder, which has the `curricula` of the package. An example that begins with a
 * blank is shown and not run: it would go on for ever or for minutes. What `page` and `publish` write, their own tests look at.
 */
export const COMMAND_EXAMPLES: Readonly<Record<string, string>> = {
  check: "leeway check curricula/quayside-odd-meters.yaml",
  words: "leeway words voices | head -5",
  explain: "leeway explain GATE_FORM",
  compile: "leeway compile curricula/quayside-first-course.yaml --out course.json && head -c 60 course.json; echo",
  rungs: "leeway rungs curricula/quayside-first-course.yaml two-bars --from 5",
  score: 'leeway score curricula/quayside-first-course.yaml two-bars "dropout=2 bars,tempo=84"',
  assess: "leeway assess curricula/quayside-first-course.yaml one-bar 1 curricula/takes/one-bar-hurried.mid | head -2",
  gate: "leeway gate curricula/quayside-first-course.yaml steady | head -7",
  decide: `leeway assess curricula/quayside-first-course.yaml steady 1 curricula/takes/steady-week.jsonl --json > findings.jsonl
leeway decide curricula/quayside-first-course.yaml --journal tern.jsonl --student tern \\
  --findings findings.jsonl --at 2026-03-05T18:00:00Z 2>&1 >> tern.jsonl`,
  plan: `leeway plan tern --minutes 5 --today 2026-03-06 --journal tern.jsonl \\
  --course curricula/quayside-first-course.yaml | head -3`,
  place: `leeway enrol curricula/quayside-first-course.yaml gull --store quay.sqlite --at 2026-03-02T17:00:00Z
leeway place gull --drill one-bar --store quay.sqlite`,
  listen: `leeway render curricula/quayside-odd-meters.yaml sevens-steady 1 --mix play --as wav --out heard > said.txt 2>&1
leeway listen heard/*/*.wav --family percussive | head -3`,
  draft: "leeway draft curricula/takes/half-bar.mid --tempo 76 --for trumpet --grid 1/8 | sed -n '1p; 5,9p'",
  calibrate: "leeway calibrate --clicks clicks.wav 2>&1 | head -1",
  render: `leeway render curricula/quayside-first-course.yaml half-bar 1 --mix play --for trumpet \\
  --as midi,chart --out monday 2> cautions.txt`,
  serve: " leeway serve curricula/quayside-first-course.yaml --store school.sqlite --port 8420",
  work: " leeway work --store postgresql://school@db.example/leeway --threads 2",
  page: " leeway page curricula/quayside-odd-meters.yaml --single --out practice.html",
  publish:
    " leeway publish curricula/quayside-first-course.yaml --out site --as mp3 --address https://quay.example/first/",
  pack: "leeway pack curricula/quayside-first-course.yaml --out quay.zip",
  unpack: "leeway unpack quay.zip --out again",
  enrol: "leeway enrol curricula/quayside-first-course.yaml tern knot --store quay.sqlite --at 2026-03-02T17:00:00Z",
  submit:
    "leeway submit tern curricula/takes/steady-week.jsonl --store quay.sqlite --at 2026-03-05T18:00:00Z | tail -6",
  standing: "leeway standing tern --store quay.sqlite",
  journal: `leeway journal verify --store quay.sqlite | cut -d : -f 2-
leeway journal erase knot --yes --store quay.sqlite | head -1`,
  store: "leeway store migrate --store quay.sqlite | cut -d : -f 2-",
  rehearse:
    "leeway rehearse curricula/quayside-first-course.yaml --drill steady --students 200 --keep played | head -9",
  report: "leeway report --store quay.sqlite --at 2026-03-20T18:00:00Z | head -7",
};
