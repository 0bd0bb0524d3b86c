/** SVG as text. Everything that a drawing is made of is a string of elements; lengths are in px of the sheet. */
export type Svg = string;

/** A place on the sheet: px to the right, px down. */
export type Point = readonly [x: number, y: number];

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** One element; children are SVG already, attributes are escaped here. */
export function element(name: string, attributes: Attributes = {}, ...children: readonly Svg[]): Svg {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === "number" ? numberText(value) : escapeText(String(value))}"`)
    .join("");
  const inside = children.join("");
  return inside === "" ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`;
}

export function group(attributes: Attributes, ...children: readonly Svg[]): Svg {
  return element("g", attributes, ...children);
}

/** Moves what was drawn from 0, 0 to a place of the sheet. */
export function moved(x: number, y: number, ...children: readonly Svg[]): Svg {
  return group({ transform: `translate(${numberText(x)} ${numberText(y)})` }, ...children);
}

// XML 1.0 knows no control characters but tab and the two line ends.
const notInXml = /[^\t\n\r\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]/gu;

export function escapeText(text: string): string {
  return text
    .replace(notInXml, "")
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;");
}

/** Two decimals at most: a hundredth of a px is finer than any screen or printer. Never −0. */
export function numberText(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return Number.isFinite(rounded) ? String(rounded === 0 ? 0 : rounded) : "0";
}
