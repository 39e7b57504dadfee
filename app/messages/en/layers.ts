import { reassurance } from '@/lib/stats/reassurance';
import { periodLabel } from '@/lib/vocabulary/terms';
import { CLUSTER_PATTERNS, type ClusterPattern } from '../../view/cluster-patterns';
import type { MapContent, MapPlace } from '../../view/map-content';
import type { FirstFind } from '../../view/record';
import type { Grain, Layer } from '../../view/view';
import { sentence, sentenceStart } from '../format';
import { count, list, many, percent } from './format';
import { estimateWords, placeSummary, when } from './sentences';
import { texts } from './texts';

/** What the map's layers say. */
export const layers = {
  label: 'What the map shows',
  names: {
    share: 'Share resistant',
    found: 'First found',
    clusters: 'Where it lies together',
    spread: 'Spread',
    effort: 'Populations screened',
  } as Record<Layer, string>,
  grains: { county: 'county', district: 'district', state: 'state' } as Record<Grain, string>,
  patterns: {
    'raised, neighbours raised too': 'raised, neighbours raised too',
    'stands out alone': 'stands out alone',
    'lower, neighbours lower': 'lower, neighbours lower',
    'lower than around it': 'lower than around it',
    'no sign': 'no sign of a difference',
    'too little tested': 'too little screened to compare',
  } as Record<ClusterPattern, string>,
  legend: {
    faintShare:
      'Lighter ink, with fine lines: few were screened. The 95 % interval spans more than half of the scale.',
    found: 'First season or run of seasons in which a find is public',
    upTo: (season: number) => `up to ${season}`,
    faintFound:
      'Lighter ink: counted then in an area of several counties, and not necessarily found in this one.',
    foundUndated: 'Found; when is not public',
    clusters: 'Beside its neighbours, allowing for how many were screened',
    faintClusters: 'Too little screened in it or around it to compare',
    spread: 'New after a clean record: when it came',
    faintSpread:
      'Lighter ink: found when first screened, or the record before it is not shown. When it came is not known.',
    front:
      'Dashed rings: where the front stood at the end of the season written on it. The cross is where it began.',
    effort: 'Populations screened',
    screened: 'Screened, with public numbers',
    from: (bound: number) => `${bound} and more`,
    range: (first: number, last: number) => `${first} to ${last}`,
  },
  silent: {
    'no verdict': 'There is too little public to say whether it lies together in these seasons.',
    'no clusters': 'In these seasons there is no sign that it lies together. None told is not none there.',
    'choose seasons': 'How many were screened is public by run of seasons. Choose one above.',
  } as Record<NonNullable<MapContent['silent']>, string>,
  districtOnly: 'How it spreads is known by district only, so the map is by district.',
  /** What the parts of a card are called. */
  card: {
    screened: 'Screened',
    found: 'Resistant',
    allows: 'What a clean record allows',
    first: 'First found',
    neighbours: 'Beside its neighbours',
    zoom: (place: string) => `Zoom the map to ${place}`,
    none: 'nothing public',
  },
  search: {
    label: 'Find a county',
    go: 'Find',
    hint: 'Type the beginning of its name',
    none: 'No county fits',
  },
  slider: {
    label: 'Season of the map',
    play: 'Play the seasons',
    stop: 'Stop',
    unfinished: 'still being screened',
    upTo: 'up to the end of',
  },
  export: {
    label: 'Take the picture with you:',
    svg: 'SVG',
    png: 'PNG',
    how: 'with its legend, source, release and date',
  },
  releases: {
    newer: (shown: number, newest: number) =>
      `This is release ${shown}. There is a newer one, release ${newest}.`,
    toNewest: 'Show the same there',
  },
  tooLong: {
    heading: 'This address is too long',
    text: 'No view of this site needs so long an address: weed, herbicide group, seasons, layer, place and release fit into a line. It may have been pasted together with something else.',
  },
  title,
  about,
  placeWords: layerWords,
  firstWords,
  reassurance: reassuranceOf,
  several: (names: readonly string[]) => `It could be ${list(names, { comma: ', ', limit: 8 })}.`,
};

/** Title of the map: its layer, weed, group and seasons. */
function title(
  { grain, window }: Pick<MapContent, 'grain' | 'window'>,
  layer: Layer,
  weed: string,
  herbicides: string,
): string {
  const what = `${weed} resistant to ${herbicides}`;
  const until = window === 'all' ? 'over all closed seasons' : `up to ${window.last}`;
  const titles: Record<Layer, string> = {
    share: `Map by ${grain}: ${what}, ${when(window)}`,
    found: `First found, by ${grain}: ${what}, ${until}`,
    clusters: `Where it lies together, by ${grain === 'county' ? 'county and area' : grain}: ${what}, ${when(window)}`,
    spread: `Spread by ${grain}: ${what}, ${until}`,
    effort: `Populations screened, by ${grain}: ${weed} and ${herbicides}, ${when(window)}`,
  };
  return titles[layer];
}

/** What the map shows, in a sentence; also its description for those who do not see it. */
function about(map: MapContent, layer: Layer): string {
  const { places, grain } = map;
  const [one, several] = layer === 'found' && grain === 'county' ? ['county', 'counties'] : NOUNS[grain];
  const number = (keep: (place: MapPlace) => boolean) => places.filter(keep).length;
  const status = (wanted: string) => number(({ numbers }) => numbers.status === wanted);
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
      .map(([pattern, of]) => `${layers.patterns[pattern]} in ${count(of)}`);
    return sentence(
      `Of ${many(
        number(({ pattern }) => pattern !== null),
        one,
        several,
      )} compared: ${list(parts)}`,
    );
  }
  if (layer === 'effort') {
    const screened = places.flatMap(({ numbers }) => (numbers.estimate ? [numbers.estimate.tested] : []));
    const [least, most] = [Math.min(...screened), Math.max(...screened)];
    return screened.length === 0
      ? 'No place of this map has a public number of populations screened.'
      : sentence(
          `Of ${many(places.length, one, several)}: ${count(screened.length)} with a public number of populations screened, from ${count(least)} to ${count(most)}, without public information ${count(status('no public information'))}, not screened ${count(status('not screened'))}`,
        );
  }
  const arrived = number(({ first }) => first?.how === 'new after a clean record');
  const found = status('confirmed');
  const told = layer === 'spread' ? `, new after a clean record in ${count(arrived)} of them` : '';
  return sentence(
    `Of ${many(places.length, one, several)}: found in ${count(found)}${told}; screened with none found in ${count(status('none confirmed'))}, without public information ${count(status('no public information'))}, not screened ${count(status('not screened'))}`,
  );
}

/** What a layer says of a place after its name. */
function layerWords({ numbers, first, pattern }: MapPlace, layer: Layer): string {
  const { status, estimate } = numbers;
  const look = sentence(sentenceStart(texts.status[status]));
  if (status === 'no public information' || status === 'not screened') return look;
  const counts = estimate ? `${look} ${estimateWords(estimate)}` : look;
  const clean = estimate ? reassuranceOf(estimate) : null;
  const parts = [counts, ...(clean ? [clean] : [])];
  if (layer === 'found' || layer === 'spread') parts.push(first ? firstWords(first) : '');
  if (layer === 'clusters' && pattern) parts.push(sentence(sentenceStart(layers.patterns[pattern])));
  return parts.filter((part) => part !== '').join(' ');
}

/** When and how a place was first found. */
function firstWords({ period, counted, how }: FirstFind): string {
  const where = counted.kind === 'area' ? `, counted together: ${counted.name}` : '';
  const kinds = {
    'new after a clean record': ', new after a clean record',
    'found at first test': ', the first time it was looked for',
    'earlier record not shown': ', with an earlier record that is not shown',
  };
  return `First found in ${periodLabel(period)}${where}${how ? kinds[how] : ''}.`;
}

/** What none found in so many still allows; null where some were found or none screened. */
function reassuranceOf({ tested, resistant }: { tested: number; resistant: number }): string | null {
  const allowed = tested > 0 ? reassurance(resistant, tested) : null;
  return allowed
    ? `That still allows up to ${percent(allowed.upper)} of populations like these to be resistant.`
    : null;
}

const NOUNS: Record<Grain, [one: string, several: string]> = {
  county: ['county or area', 'counties and areas'],
  district: ['district', 'districts'],
  state: ['state', 'states'],
};
