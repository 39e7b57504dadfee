import type { Map as MapLibre } from 'maplibre-gl';
import type { Rings, Shapes } from './shapes';

/** What is outlined: the place that is pointed at, and the one that is chosen. */
export type Outlined = 'pointed' | 'chosen';

export interface Outlines {
  /** Outlines a place of any kind; none with null. */
  show(what: Outlined, place: string | null): void;
  /** Says where the outlines of areas are; null where there are none. */
  setAreas(address: string | null): void;
}

interface Drawn {
  /** Path in CSS pixels at `PATH_ZOOM`, from `at` on. */
  path: string;
  at: readonly [lon: number, lat: number];
}

const SVG = 'http://www.w3.org/2000/svg';
const PATH_ZOOM = 9;
const LINES = {
  pointed: ['line-pointed-halo', 'line-pointed'],
  chosen: ['line-chosen-halo', 'line-chosen'],
} as const;

/**
 * Outlines of places over a live map. They are no layer of the map, since a map that is drawn anew keeps a tap waiting, and
 * these lines are all that changes. They follow the map as it moves.
 *
 * @param regionOutlines address of the outlines of counties, districts and states
 */
export function createOutlines(
  map: MapLibre,
  regionOutlines: string,
  shapesAt: (address: string) => Promise<Shapes>,
): Outlines {
  const svg = document.createElementNS(SVG, 'svg');
  svg.setAttribute('class', 'map-outlines');
  svg.setAttribute('aria-hidden', 'true');
  map.getCanvas().after(svg);
  const paths = (what: Outlined) =>
    LINES[what].map((name) => {
      const path = document.createElementNS(SVG, 'path');
      path.setAttribute('class', name);
      return svg.appendChild(path);
    });
  const lines = { pointed: paths('pointed'), chosen: paths('chosen') };
  const asked: Record<Outlined, string | null> = { pointed: null, chosen: null };
  const shown: Record<Outlined, Drawn | null> = { pointed: null, chosen: null };
  let areas: string | null = null;

  const follow = () => {
    for (const what of ['pointed', 'chosen'] as const) {
      const drawn = shown[what];
      if (!drawn) continue;
      const { x, y } = map.project([...drawn.at]);
      const scale = 2 ** (map.getZoom() - PATH_ZOOM);
      for (const path of lines[what]) path.setAttribute('transform', `translate(${x} ${y}) scale(${scale})`);
    }
  };
  map.on('move', follow);

  const draw = async (what: Outlined) => {
    const place = asked[what];
    const rings = place ? await ringsOf(place) : undefined;
    if (asked[what] !== place) return;
    shown[what] = rings ? pathOf(rings) : null;
    for (const path of lines[what]) path.setAttribute('d', shown[what]?.path ?? '');
    follow();
  };
  const ringsOf = async (place: string) => {
    const inAreas = areas ? (await shapesAt(areas)).of(place) : undefined;
    return inAreas ?? (await shapesAt(regionOutlines)).of(place);
  };

  return {
    show(what, place) {
      asked[what] = place;
      draw(what).catch((error) => console.info('No outline of a place:', error));
    },
    setAreas(address) {
      areas = address;
    },
  };
}

function pathOf(rings: Rings): Drawn {
  const at = rings[0]![0]!;
  const size = 512 * 2 ** PATH_ZOOM;
  const [left, top] = mercator(at);
  const path = rings.map((ring) => {
    const points = ring.map((point) => {
      const [x, y] = mercator(point);
      return `${((x - left) * size).toFixed(1)},${((y - top) * size).toFixed(1)}`;
    });
    return `M${points.join('L')}Z`;
  });
  return { path: path.join(''), at };
}

/** The whole world is one wide and one high. */
function mercator([lon, lat]: readonly [number, number]): [number, number] {
  const y = Math.log(Math.tan(Math.PI / 4 + (lat * Math.PI) / 360));
  return [lon / 360 + 0.5, 0.5 - y / (2 * Math.PI)];
}
