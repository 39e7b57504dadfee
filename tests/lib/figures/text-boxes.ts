/** Where words of a picture stand, in its user units. */
interface TextBox {
  content: string;
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/**
 * The words of a picture whose text elements carry `x`, `y` and `text-anchor` themselves, with widths of a wide
 * sans-serif (DejaVu Sans, from its own table: digits 0.636 em, most letters less, signs 0.3 to 0.4 em).
 */
export function textBoxes(svg: string): TextBox[] {
  const font = Number(/font-size="([\d.]+)"/.exec(svg)![1]);
  return [...svg.matchAll(/<text([^>]*)>([^<]*)<\/text>/g)].map(([, attributes, content]) => {
    const get = (name: string) => new RegExp(` ${name}="([^"]*)"`).exec(attributes!)?.[1];
    const width =
      font * [...content!].reduce((sum, sign) => sum + (/[’*.,;:|il\s]/.test(sign) ? 0.38 : 0.64), 0);
    const x = Number(get('x'));
    const anchor = get('text-anchor') ?? 'start';
    const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
    const y = Number(get('y'));
    return { content: content!, left, right: left + width, top: y - 0.75 * font, bottom: y + 0.2 * font };
  });
}

/**
 * Pairs of words that lie over each other.
 *
 * @param apart room that words of a line must keep between them, in user units
 */
export function overlaps(svg: string, apart = 0): string[] {
  const boxes = textBoxes(svg);
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter(
        (b) => a.left < b.right + apart && b.left < a.right + apart && a.top < b.bottom && b.top < a.bottom,
      )
      .map((b) => `${a.content} | ${b.content}`),
  );
}

/**
 * How large the words are on a phone of 360 pixels, whose page has a margin of 16 on each side.
 *
 * @param beside how many pictures stand beside each other there, 16 apart
 */
export function fontOnPhone(svg: string, beside = 1): number {
  const width = Number(/viewBox="0 0 ([\d.]+)/.exec(svg)![1]);
  return (Number(/font-size="([\d.]+)"/.exec(svg)![1]) * (328 - 16 * (beside - 1))) / beside / width;
}
