import { type Fill, TONES, type Tone, toneClass } from '@/lib/figures/looks';
import type { ReadPlace } from './told-place';

/** How each place is filled: the only thing that the live map knows of it. */
export type Fills = ReadonlyMap<string, Fill>;

const TONE_OF = new Map<string, Tone>(TONES.map((tone) => [toneClass(tone), tone]));

/** The fills of all places of the picture inside an element. */
export function drawnPlaces(inside: Element): Fills {
  return new Map(
    [...inside.querySelectorAll<SVGElement>('svg.map [data-place]')].map((area) => {
      const [, look = '', faint] = /^(.*?)( faint)?$/.exec(area.getAttribute('class') ?? '') ?? [];
      return [area.dataset.place!, { tone: TONE_OF.get(look) ?? 'blank', faint: faint !== undefined }];
    }),
  );
}

/** The place of the picture on which an event happened, as its title tells it. */
export function placeUnder(target: EventTarget): ReadPlace | null {
  const area = target instanceof Element ? target.closest<SVGElement>('[data-place]') : null;
  return area && readTitle(area);
}

/** The same of a place with this key. */
export function placeWith(inside: Element, place: string): ReadPlace | null {
  const area = inside.querySelector<SVGElement>(`svg.map [data-place="${CSS.escape(place)}"]`);
  return area && readTitle(area);
}

function readTitle(area: SVGElement): ReadPlace {
  const [name = '', words = ''] = (area.querySelector('title')?.textContent ?? '').split('\n');
  return { place: area.dataset.place!, name, words };
}
