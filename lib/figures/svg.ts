export type Attributes = Record<string, string | number | null | undefined>;

/** One SVG element as text. Absent attributes are left out; attribute values and `text` children are escaped. */
export function element(name: string, attributes: Attributes, ...children: string[]): string {
  let written = `<${name}`;
  for (const [key, value] of Object.entries(attributes)) {
    if (value !== null && value !== undefined) written += ` ${key}="${text(String(value))}"`;
  }
  return children.length > 0 ? `${written}>${children.join('')}</${name}>` : `${written}/>`;
}

/** Text made safe for markup. */
export function text(value: string): string {
  return value.replace(/[&<>"]/g, (sign) => ENTITIES[sign]!);
}

/** A coordinate with at most one decimal. */
export function round(value: number): number {
  return Math.round(value * 10) / 10;
}

const ENTITIES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
