/** Colours of the sheet: paper, ink, one accent that says where to act, and three for verdicts. */
export interface Tokens {
  readonly paper: string;
  readonly tint: string;
  readonly ink: string;
  readonly "ink-2": string;
  readonly hair: string;
  readonly act: string;
  readonly "on-act": string;
  readonly within: string;
  readonly out: string;
}

export const lightTokens: Tokens = {
  paper: "#fbf8f1",
  tint: "#f2ede1",
  ink: "#1d1b18",
  "ink-2": "#5b564c",
  hair: "#d6cebc",
  act: "#2140b0",
  "on-act": "#fdfbf6",
  within: "#00674c",
  out: "#b02c00",
};

export const darkTokens: Tokens = {
  paper: "#141311",
  tint: "#211f1b",
  ink: "#ece6d9",
  "ink-2": "#b0a898",
  hair: "#3a3731",
  act: "#a3b8ff",
  "on-act": "#10142a",
  within: "#45b88f",
  out: "#ff8a5f",
};

/** Fonts that every system has stand behind the one a page may load. */
export const fontFamily = 'Barlow,"Helvetica Neue",Helvetica,Arial,sans-serif';

/** Width of the two lines in px, ratio 2 : 1, and of the few marks that say "here". */
export const lineWidths = { wide: 2, thin: 1, extra: 4 } as const;

/** Dashes in px, after the line kinds 02.1, 04.1 and 05.1 of [ISO 128-2], shortened because parts are small on screens. */
export const dashes = { hidden: "8 3", centre: "16 3 1 3", limit: "16 3 1 3 1 3" } as const;

/** Kinds of line; the number is that of [ISO 128-2]. */
export type LineKind =
  /** 01.2 outline. */
  | "wide"
  /** 01.1 nominal outline, extension line, hatching, break. */
  | "thin"
  /** 02.1 hidden edge. */
  | "hidden"
  /** Hidden edge of the part that the drawing is about. */
  | "hidden-wide"
  /** 04.1 centre line, zero. */
  | "centre"
  /** 05.1 end of travel, other position of a part that moves. */
  | "limit"
  /** Printed grid, rules of a table: never the only carrier of a meaning. */
  | "hair"
  /** Ends of a cutting plane. */
  | "extra"
  /** The part that the reader acts on. */
  | "act";

/** The colours as custom properties of the document, light and dark, and what print and high contrast make of them. */
export const tokenStyles = [
  `:root{${properties(lightTokens)}}`,
  `@media (prefers-color-scheme:dark){:root:not([data-theme=light]){${properties(darkTokens)}}}`,
  `:root[data-theme=dark]{${properties(darkTokens)}}`,
  "@media (prefers-contrast:more){:root{--ink-2:var(--ink);--hair:var(--ink)}}",
  `@media print{:root,:root:not([data-theme=light]),:root[data-theme=dark]{${properties({ ...lightTokens, "ink-2": "#1d1b18" })}}}`,
].join("\n");

const shapes = "path,rect,circle,ellipse,line,polygon,polyline";

/** Rules for every class that a drawing uses. A page that shows several drawings takes them in once. */
export const drawingStyles = [
  // No ancestor stands before this one: it must also match shapes that a page draws through a reference.
  `${shapes}{vector-effect:non-scaling-stroke}`,
  `.dwg{fill:none;${colour("stroke", "ink")};stroke-width:${lineWidths.thin};stroke-linejoin:round}`,
  `.dwg text{${colour("fill", "ink")};stroke:none;font-family:${fontFamily};font-size:13px;font-variant-numeric:tabular-nums lining-nums}`,
  `.dwg .second{${colour("fill", "ink-2")}}`,
  ".dwg .strong{font-weight:600}",
  ".dwg .medium{font-weight:500}",
  ".dwg .s15{font-size:15px}",
  ".dwg .s17{font-size:17px}",
  `.dwg .paper{${colour("fill", "paper")};stroke:none}`,
  `.dwg .wide{stroke-width:${lineWidths.wide}}`,
  `.dwg .thin{${colour("stroke", "ink-2")}}`,
  `.dwg .hidden{${colour("stroke", "ink-2")};stroke-dasharray:${dashes.hidden}}`,
  `.dwg .hidden-wide{stroke-width:${lineWidths.wide};stroke-dasharray:${dashes.hidden}}`,
  `.dwg .centre{${colour("stroke", "ink-2")};stroke-dasharray:${dashes.centre}}`,
  `.dwg .limit{${colour("stroke", "ink-2")};stroke-dasharray:${dashes.limit}}`,
  `.dwg .hair{${colour("stroke", "hair")}}`,
  `.dwg .extra{stroke-width:${lineWidths.extra}}`,
  `.dwg .act{${colour("stroke", "act")};stroke-width:${lineWidths.wide}}`,
  `.dwg .solid{${colour("fill", "paper")}}`,
  `.dwg .tint{${colour("fill", "tint")}}`,
  `.dwg .arrow{${colour("fill", "ink-2")};stroke:none}`,
  `.dwg .ink{${colour("fill", "ink")};stroke:none}`,
  `.dwg .here{${colour("fill", "act")};stroke:none}`,
  `.dwg .mark{${colour("fill", "paper")};stroke-width:1.5}`,
  ".dwg .mark text{font-weight:600;text-anchor:middle}",
  `.dwg .mark.read{${colour("fill", "ink")}}`,
  `.dwg .mark.read text{${colour("fill", "paper")}}`,
  `.dwg .mark.now{${colour("fill", "act")};${colour("stroke", "act")}}`,
  `.dwg .mark.now text{${colour("fill", "on-act")}}`,
  `.dwg .within{${colour("fill", "within")};${colour("stroke", "within")}}`,
  `.dwg .out{${colour("fill", "out")};${colour("stroke", "out")}}`,
  `.dwg .unknown{${colour("fill", "paper")};${colour("stroke", "ink")}}`,
  ".dwg .bare{fill:none}",
  `@media print{.dwg .wide,.dwg .act,.dwg .hidden-wide{stroke-width:.5mm}.dwg .act{${colour("stroke", "ink")}}}`,
].join("\n");

function properties(tokens: Tokens): string {
  return Object.entries(tokens)
    .map(([name, value]) => `--${name}:${value}`)
    .join(";");
}

/** Programs that know no custom properties keep the first of the two. */
function colour(property: "fill" | "stroke", token: keyof Tokens): string {
  return `${property}:${lightTokens[token]};${property}:var(--${token},${lightTokens[token]})`;
}
