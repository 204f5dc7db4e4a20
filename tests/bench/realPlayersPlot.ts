/** One trial of the plot. Drifts in per cent of tempo. */
export interface PlottedTrial {
  readonly ioi: 400 | 600;
  readonly found: number;
  readonly plain: number;
  readonly verdict: "within" | "beyond" | "unclear";
}

const WIDTH = 760;
const HEIGHT = 470;
const PANEL = { width: 290, height: 290, top: 92 };
const LEFTS = { 400: 64, 600: 440 } as const;
// The plot ends here either way, per cent; the few trials beyond lie on its edge.
const REACH = 40;
// Tones a reader tells apart in print and with any colour vision: light, middle, dark, and a shape of its own for `unclear`.
const TONES = { within: "#4a90c2", beyond: "#b5651d", unclear: "#555555" } as const;

/** Drift found against the plain estimate, one panel for each tempo: an SVG document. */
export function plotDrifts(trials: readonly PlottedTrial[]): string {
  const title = "Drift found in sixteen silent beats, against the mean interval of the taps";
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" font-family="sans-serif" font-size="13" role="img" aria-labelledby="title about">`,
    `<title id="title">${title}</title>`,
    `<desc id="about">Two panels, 400 and 600 ms a beat; each dot is one trial, per cent of tempo, positive slower. Most lie on the diagonal.</desc>`,
    `<rect width="${WIDTH}" height="${HEIGHT}" fill="#ffffff"/>`,
    text(WIDTH / 2, 26, title, 'text-anchor="middle" font-size="16" font-weight="bold"'),
    text(
      WIDTH / 2,
      48,
      `${trials.length} trials of real players; per cent of tempo, positive slower; beyond ${REACH} % on the edge`,
      'text-anchor="middle"',
    ),
    ...([400, 600] as const).flatMap((ioi) =>
      panel(
        ioi,
        trials.filter((trial) => trial.ioi === ioi),
      ),
    ),
    ...legend(),
    "</svg>",
    "",
  ].join("\n");
}

const text = (x: number, y: number, words: string, rest = ""): string =>
  `<text x="${x}" y="${y}" ${rest}>${words}</text>`;

function panel(ioi: 400 | 600, trials: readonly PlottedTrial[]): string[] {
  const left = LEFTS[ioi];
  const place = (percent: number): number => (Math.max(-REACH, Math.min(REACH, percent)) + REACH) / (2 * REACH);
  const x = (percent: number): string => `${Math.round(left + place(percent) * PANEL.width)}`;
  const y = (percent: number): string => `${Math.round(PANEL.top + (1 - place(percent)) * PANEL.height)}`;
  const ticks = [-40, -20, 0, 20, 40].flatMap((percent) => [
    `<path d="M${x(percent)} ${PANEL.top}V${PANEL.top + PANEL.height}M${left} ${y(percent)}H${left + PANEL.width}" stroke="${percent === 0 ? "#888" : "#ddd"}" fill="none"/>`,
    text(Number(x(percent)), PANEL.top + PANEL.height + 18, `${percent}`, 'text-anchor="middle"'),
    text(left - 6, Number(y(percent)) + 4, `${percent}`, 'text-anchor="end"'),
  ]);
  // Unclear trials first, so that the clear ones are seen.
  const order = ["unclear", "beyond", "within"] as const;
  const marks = order.map((verdict) => {
    // Trials on the same spot are one mark.
    const spots = new Set(
      trials.filter((trial) => trial.verdict === verdict).map(({ found, plain }) => `${x(plain)} ${y(found)}`),
    );
    const d = [...spots]
      .map((spot) => (verdict === "unclear" ? `M${spot}m-2 -2l4 4m0 -4l-4 4` : `M${spot}h0`))
      .join("");
    const line = verdict === "unclear" ? 'stroke-width="0.7"' : 'stroke-width="2.6" stroke-linecap="round"';
    return `<path d="${d}" stroke="${TONES[verdict]}" stroke-opacity="0.6" fill="none" ${line}/>`;
  });
  return [
    text(
      left + PANEL.width / 2,
      PANEL.top - 12,
      `${ioi} ms a beat (${trials.length} trials)`,
      'text-anchor="middle" font-weight="bold"',
    ),
    ...ticks,
    `<path d="M${x(-REACH)} ${y(-REACH)}L${x(REACH)} ${y(REACH)}" stroke="#888" stroke-dasharray="4 3" fill="none"/>`,
    ...marks,
    text(left + PANEL.width / 2, PANEL.top + PANEL.height + 38, "mean interval of the taps, %", 'text-anchor="middle"'),
    text(
      left - 44,
      PANEL.top + PANEL.height / 2,
      "drift found, %",
      `text-anchor="middle" transform="rotate(-90 ${left - 44} ${PANEL.top + PANEL.height / 2})"`,
    ),
  ];
}

function legend(): string[] {
  const y = HEIGHT - 24;
  const words = { within: "within 5 %", beyond: "beyond 5 %", unclear: "unclear" } as const;
  return (["within", "beyond", "unclear"] as const).flatMap((verdict, i) => {
    const x = 230 + 120 * i;
    const mark =
      verdict === "unclear"
        ? `<path d="M${x - 4} ${y - 8}l8 8m0 -8l-8 8" stroke="${TONES.unclear}" fill="none"/>`
        : `<circle cx="${x}" cy="${y - 4}" r="5" fill="${TONES[verdict]}"/>`;
    return [mark, text(x + 12, y, words[verdict])];
  });
}
