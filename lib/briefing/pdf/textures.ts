import { INK, inkOf, TONES } from '@/lib/figures/looks';
import { DOT_RADIUS, FAINT, HATCH, HATCH_WIDTH, TILE } from '@/lib/figures/patterns';

/**
 * Fills the path that `trace` draws with a texture of figures, by the end of its name (`dots`, `hatch`, `faint-share-2`),
 * under the transformation that holds now.
 */
export type FillTexture = (trace: () => void, name: string, rule: 'even-odd' | 'non-zero') => void;

/** What the library does with tiling patterns, of which its types do not know. */
interface Tiler {
  pattern(box: number[], xStep: number, yStep: number, stream: string): unknown;
  fill(color: [pattern: unknown, color: string]): void;
}

/** The textures for one figure: a pattern is fixed to where the page stood when it was first used. */
export function textures(doc: PDFKit.PDFDocument): FillTexture {
  const tiler = doc as unknown as Tiler;
  const made = new Map<string, unknown>();
  const tiling = (name: string, stream: string) => {
    const pattern = made.get(name) ?? tiler.pattern([0, 0, TILE, TILE], TILE, TILE, stream);
    made.set(name, pattern);
    return pattern;
  };
  const field = () => doc.rect(-FAR, -FAR, 2 * FAR, 2 * FAR);
  return (trace, name, rule) => {
    const { ground, ink, stream } = textureOf(name);
    doc.save();
    trace();
    // The clip uses up the path, so a field larger than any figure is filled: first the ground, then the texture.
    doc.clip(rule);
    field().fill(ground);
    field();
    tiler.fill([tiling(name, stream), ink]);
    doc.restore();
  };
}

function textureOf(name: string): { ground: string; ink: string; stream: string } {
  if (name === 'dots') return { ground: INK.clean, ink: INK.dot, stream: dotStream() };
  if (name === 'hatch') return { ground: INK.paper, ink: INK.hatch, stream: strokes(HATCH, HATCH_WIDTH) };
  const tone = TONES.find((one) => name === `faint-${one}`);
  if (tone) return { ground: inkOf(tone), ink: INK.paper, stream: strokes(FAINT.d, FAINT.width) };
  throw new Error(`a figure is filled with the texture ${name}, which documents do not know`);
}

const FAR = 20_000;

/** The lines of a texture as operators: `M` with `l` or `H` is all that their paths have. */
function strokes(path: string, width: number): string {
  const steps = [...path.matchAll(/M(-?\d+),(-?\d+)(?:l(-?\d+),(-?\d+)|H(-?\d+))/g)].map((step) => {
    const [x, y, dx, dy, across] = step.slice(1).map((value) => Number(value ?? Number.NaN)) as number[];
    const to = Number.isNaN(across) ? `${x! + dx!} ${y! + dy!}` : `${across} ${y}`;
    return `${x} ${y} m ${to} l`;
  });
  return `${width} w ${steps.join(' ')} S`;
}

/** A circle of four Bézier curves. */
function dotStream(): string {
  const [c, r] = [TILE / 2, DOT_RADIUS];
  const k = 0.5523 * r;
  const curve = (...at: number[]) => `${at.map((value) => (c + value).toFixed(3)).join(' ')} c`;
  return [
    `${c + r} ${c} m`,
    curve(r, k, k, r, 0, r),
    curve(-k, r, -r, k, -r, 0),
    curve(-r, -k, -k, -r, 0, -r),
    curve(k, -r, r, -k, r, 0),
    'f',
  ].join(' ');
}
