/** A course whose takes are short. `text` stands wherever a course has text, as YAML writes it. */
export function shortCourse(text: string): string {
  return `
curriculum: short-walk
edition: 1.0.0
title: ${text}
about: ${text}
players: [trumpet]
patterns:
  steps:
    title: ${text}
    meter: 4/4
    bars: 2
    key: C major
    parts:
      kit: { voices: { kick: x---x--- | ..., hat: x-x-x-x- | ... } }
      lead: { notes: "1/4 C4 1/8 D4 E4 1/4 F4 - | 1/4 G4 F4 1/8 E4 D4 1/4 C4" }
drills:
  walk:
    title: ${text}
    about: ${text}
    pattern: steps
    student: lead
    phrases: 2
    dropout: { length: 1 bar, parts: [kit] }
    ladders:
      - tempo: { from: 150, to: 160, by: 5 }
    mixes: { play: { lead: off }, listen: { lead: plays } }
    tolerance: { drift: 12 %, landing: 120 ms }
    gate: { clean: 1, of: 1 }
`;
}

/** The short course of an author who means harm: markup and scripts wherever a course has text. */
export const HOSTILE_COURSE: string = shortCourse(
  `"<script>window.hurt=1</script><img src=x onerror='window.hurt=1'>"`,
);
