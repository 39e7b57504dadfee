import type { ReadPlace } from '../components/map-reading';

/** How a place is drawn: the only thing that the live map knows of it. */
export interface DrawnLook {
  place: string;
  look: 'confirmed' | 'clean' | 'hidden' | 'blank';
  /** Class of its share from 1, or 0 where it has none. */
  step: number;
}

/** The looks of all places of the picture inside an element. */
export function drawnPlaces(inside: Element): DrawnLook[] {
  return [...inside.querySelectorAll<SVGElement>('svg.map [data-place]')].map((area) => {
    const look = /look-(\w+)/.exec(area.getAttribute('class') ?? '')?.[1] as DrawnLook['look'];
    const step = Number(/share-(\d)/.exec(area.getAttribute('class') ?? '')?.[1] ?? 0);
    return { place: area.dataset.place!, look, step };
  });
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
