import { TONES, type Tone } from '@/lib/figures/looks';

/** Colours of the map as the page's styles set them now: light, dark or as a reader wants them. */
export interface Palette {
  tones: Record<Tone, string>;
  dot: string;
  hatch: string;
  sheet: string;
  county: string;
  district: string;
  state: string;
  ink: string;
}

export function readPalette(element: Element): Palette {
  const style = getComputedStyle(element);
  const read = (name: string) => style.getPropertyValue(`--${name}`).trim();
  const sheet = read('sheet');
  const inks = TONES.map((tone) => [tone, tone === 'blank' || tone === 'hidden' ? sheet : read(tone)]);
  return {
    tones: Object.fromEntries(inks),
    dot: read('dot'),
    hatch: read('hatch'),
    sheet,
    county: read('line-county'),
    district: read('line-district'),
    state: read('line-state'),
    ink: read('ink'),
  };
}
