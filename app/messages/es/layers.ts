import { reassurance } from '@/lib/stats/reassurance';
import { periodLabel } from '@/lib/vocabulary/terms';
import { CLUSTER_PATTERNS } from '../../view/cluster-patterns';
import type { MapContent, MapPlace } from '../../view/map-content';
import type { FirstFind } from '../../view/record';
import type { Grain, Layer } from '../../view/view';
import type { layers as english } from '../en/layers';
import { sentence, sentenceStart } from '../format';
import { count, list, many, percent } from './format';
import { estimateWords, placeSummary, when } from './sentences';
import { texts } from './texts';

/** What the map's layers say, in Spanish. */
export const layers: typeof english = {
  label: 'Qué muestra el mapa',
  names: {
    share: 'Proporción resistente',
    found: 'Primer hallazgo',
    clusters: 'Dónde se concentra',
    spread: 'Propagación',
    effort: 'Poblaciones evaluadas',
  },
  grains: { county: 'condado', district: 'distrito', state: 'estado' },
  patterns: {
    'raised, neighbours raised too': 'elevada, y también la de sus vecinos',
    'stands out alone': 'sobresale sola',
    'lower, neighbours lower': 'más baja, y también la de sus vecinos',
    'lower than around it': 'más baja que a su alrededor',
    'no sign': 'sin señal de diferencia',
    'too little tested': 'se evaluó demasiado poco para comparar',
  },
  legend: {
    faintShare:
      'Tinta más clara, con líneas finas: se evaluaron pocas. El intervalo del 95 % abarca más de la mitad de la escala.',
    found: 'Primera temporada, o grupo de temporadas, con un hallazgo público',
    upTo: (season) => `hasta ${season}`,
    faintFound:
      'Tinta más clara: se contaba entonces en un área de varios condados, y no necesariamente se halló en este.',
    foundUndated: 'Hallada; cuándo no es público',
    clusters: 'Frente a sus vecinos, según cuántas se evaluaron',
    faintClusters: 'Se evaluó demasiado poco en él o a su alrededor para comparar',
    spread: 'Nueva tras un historial limpio: cuándo llegó',
    faintSpread:
      'Tinta más clara: hallada al evaluarse por primera vez, o su historial anterior no se muestra. No se sabe cuándo llegó.',
    front:
      'Anillos de trazos: dónde estaba el frente al final de la temporada escrita en cada uno. La cruz es donde empezó.',
    effort: 'Poblaciones evaluadas',
    screened: 'Evaluada, con números públicos',
    from: (bound) => `${bound} y más`,
    range: (first, last) => `${first} a ${last}`,
  },
  silent: {
    'no verdict': 'Hay demasiado poco público para decir si se concentra en estas temporadas.',
    'no clusters':
      'En estas temporadas no hay señal de que se concentre. Que no se señale no significa que no exista.',
    'choose seasons': 'Cuántas se evaluaron es público por grupo de temporadas. Elija uno arriba.',
  },
  districtOnly: 'La propagación solo se conoce por distrito, así que el mapa es por distrito.',
  card: {
    screened: 'Evaluadas',
    found: 'Resistentes',
    allows: 'Lo que permite un historial limpio',
    first: 'Primer hallazgo',
    neighbours: 'Frente a sus vecinos',
    zoom: (place) => `Acercar el mapa a ${place}`,
    none: 'nada público',
  },
  search: {
    label: 'Buscar un condado',
    go: 'Buscar',
    hint: 'Escriba el comienzo de su nombre',
    none: 'Ningún condado coincide',
  },
  slider: {
    label: 'Temporada del mapa',
    play: 'Reproducir las temporadas',
    stop: 'Detener',
    unfinished: 'aún en evaluación',
    upTo: 'hasta el final de',
  },
  export: {
    label: 'Llévese la imagen:',
    svg: 'en SVG',
    png: 'en PNG',
    how: 'con su leyenda, fuente, publicación y fecha',
  },
  releases: {
    newer: (shown, newest) =>
      `Esta es la publicación ${shown}. Hay una más reciente, la publicación ${newest}.`,
    toNewest: 'Mostrar lo mismo allí',
  },
  tooLong: {
    heading: 'Esta dirección es demasiado larga',
    text: 'Ninguna vista de este sitio necesita una dirección tan larga: maleza, grupo de herbicidas, temporadas, capa, lugar y publicación caben en una línea. Quizá se pegó junto con otra cosa.',
  },
  title,
  about,
  placeWords: layerWords,
  firstWords,
  reassurance: reassuranceOf,
  several: (names) => `Podría ser ${list(names, { comma: ', ', limit: 8 })}.`,
};

function title(
  { grain, window }: Pick<MapContent, 'grain' | 'window'>,
  layer: Layer,
  weed: string,
  herbicides: string,
): string {
  const what = `${weed} resistente al ${herbicides}`;
  const by = layers.grains[grain];
  const until = window === 'all' ? 'en todas las temporadas cerradas' : `hasta ${window.last}`;
  const titles: Record<Layer, string> = {
    share: `Mapa por ${by}: ${what}, ${when(window)}`,
    found: `Primer hallazgo por ${by}: ${what}, ${until}`,
    clusters: `Dónde se concentra, por ${grain === 'county' ? 'condado y área' : by}: ${what}, ${when(window)}`,
    spread: `Propagación por ${by}: ${what}, ${until}`,
    effort: `Poblaciones evaluadas por ${by}: ${weed} y ${herbicides}, ${when(window)}`,
  };
  return titles[layer];
}

function about(map: MapContent, layer: Layer): string {
  const { places, grain } = map;
  const [one, several] = layer === 'found' && grain === 'county' ? ['condado', 'condados'] : NOUNS[grain];
  const number = (keep: (place: MapPlace) => boolean) => places.filter(keep).length;
  const status = (wanted: string) => count(number(({ numbers }) => numbers.status === wanted));
  if (layer === 'share')
    return placeSummary(
      places.map(({ numbers }) => numbers),
      grain,
    );
  if (map.silent) return layers.silent[map.silent];
  if (layer === 'clusters') {
    const parts = CLUSTER_PATTERNS.map(
      (pattern) => [pattern, number((place) => place.pattern === pattern)] as const,
    )
      .filter(([, of]) => of > 0)
      .map(([pattern, of]) => `${layers.patterns[pattern]}: ${count(of)}`);
    return sentence(
      `De ${many(
        number(({ pattern }) => pattern !== null),
        one,
        several,
      )} que se compararon: ${list(parts)}`,
    );
  }
  const unknown = `sin información pública ${status('no public information')}, no evaluados ${status('not screened')}`;
  if (layer === 'effort') {
    const screened = places.flatMap(({ numbers }) => (numbers.estimate ? [numbers.estimate.tested] : []));
    const [least, most] = [Math.min(...screened), Math.max(...screened)];
    return screened.length === 0
      ? 'Ningún lugar de este mapa tiene un número público de poblaciones evaluadas.'
      : sentence(
          `De ${many(places.length, one, several)}: ${count(screened.length)} con un número público de poblaciones evaluadas, de ${count(least)} a ${count(most)}, ${unknown}`,
        );
  }
  const arrived = number(({ first }) => first?.how === 'new after a clean record');
  const told = layer === 'spread' ? `, nueva tras un historial limpio en ${count(arrived)} de ellos` : '';
  return sentence(
    `De ${many(places.length, one, several)}: hallada en ${status('confirmed')}${told}; evaluada sin hallarla en ${status('none confirmed')}, ${unknown}`,
  );
}

function layerWords({ numbers, first, pattern }: MapPlace, layer: Layer): string {
  const { status, estimate } = numbers;
  const look = sentence(sentenceStart(texts.status[status]));
  if (status === 'no public information' || status === 'not screened') return look;
  const clean = estimate ? reassuranceOf(estimate) : null;
  const parts = [look, estimate ? estimateWords(estimate) : '', clean ?? ''];
  if (layer === 'found' || layer === 'spread') parts.push(first ? firstWords(first) : '');
  if (layer === 'clusters' && pattern) parts.push(sentence(sentenceStart(layers.patterns[pattern])));
  return parts.filter((part) => part !== '').join(' ');
}

function firstWords({ period, counted, how }: FirstFind): string {
  const where = counted.kind === 'area' ? `, contados juntos: ${counted.name}` : '';
  const kinds = {
    'new after a clean record': ', nueva tras un historial limpio',
    'found at first test': ', la primera vez que se buscó',
    'earlier record not shown': ', con un historial anterior que no se muestra',
  };
  return `Hallada por primera vez en ${periodLabel(period)}${where}${how ? kinds[how] : ''}.`;
}

function reassuranceOf({ tested, resistant }: { tested: number; resistant: number }): string | null {
  const allowed = tested > 0 ? reassurance(resistant, tested) : null;
  return allowed
    ? `Eso aún permite que hasta ${percent(allowed.upper)} de poblaciones como estas sea resistente.`
    : null;
}

const NOUNS: Record<Grain, [one: string, several: string]> = {
  county: ['condado o área', 'condados y áreas'],
  district: ['distrito', 'distritos'],
  state: ['estado', 'estados'],
};
