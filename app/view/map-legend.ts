import { type Fill, SHARE_CLASSES, shareTone, type Tone } from '@/lib/figures/looks';
import { periodLabel } from '@/lib/vocabulary/terms';
import type { Texts } from '../messages/texts';
import { CLUSTER_PATTERNS } from './cluster-patterns';
import { EFFORT_CLASSES, PATTERN_FILL, shownWindows } from './map-content';
import type { Report } from './read-report';

/** A fill and what it means. */
export interface LegendEntry {
  fill: Fill;
  words: string;
}

export interface MapLegend {
  /** What the ramp shows; null where the map has none. */
  heading: string | null;
  ramp: LegendEntry[];
  /** The states of places, and what is in lighter ink. */
  states: LegendEntry[];
  notes: string[];
}

/** What each fill of a map means: what its layer may show, the states of its places, and lighter ink where it has any. */
export function mapLegend(
  texts: Texts,
  { head, view, map }: Pick<Report, 'head' | 'view' | 'map'>,
): MapLegend {
  const { legend, layers } = texts;
  const has = ({ tone, faint }: Partial<Fill>) =>
    map.places.some(
      ({ fill }) =>
        (tone === undefined || fill.tone === tone) && (faint === undefined || fill.faint === faint),
    );
  const solid = (tone: Tone, words: string): LegendEntry => ({ fill: { tone, faint: false }, words });
  const faintly = (tone: Tone, words: string) =>
    has({ faint: true }) ? [{ fill: { tone, faint: true }, words }] : [];
  const unknown = [solid('hidden', legend.hidden), solid('blank', legend.blank)];
  const states = [solid('clean', legend.clean), ...unknown];
  const finds = shownWindows(head).map((window, i) =>
    solid(
      shareTone(4 - i),
      i === 0 && head.windows.length > 4 ? layers.legend.upTo(window.last) : periodLabel(window),
    ),
  );
  const undated = has({ tone: 'level' }) ? [solid('level', layers.legend.foundUndated)] : [];
  const notes = map.areas !== null ? [legend.areas] : [];
  if (map.silent) return plain([solid('level', layers.legend.screened), ...unknown], notes);
  if (view.layer === 'share' && view.window === 'all')
    return plain([solid('confirmed', legend.confirmed), ...states], notes);
  if (view.layer === 'share') {
    const ramp = SHARE_CLASSES.map((_, i) => solid(shareTone(i + 1), legend.classes[i]!));
    return {
      heading: legend.share,
      ramp,
      states: [...faintly('share-3', layers.legend.faintShare), ...states],
      notes,
    };
  }
  if (view.layer === 'effort') {
    const bounds = EFFORT_CLASSES[map.grain];
    const ramp = bounds.map((bound, i) =>
      solid(
        `effort-${(i + 1) as 1 | 2 | 3 | 4}`,
        i === bounds.length - 1 ? layers.legend.from(bound) : layers.legend.range(bound, bounds[i + 1]! - 1),
      ),
    );
    return { heading: layers.legend.effort, ramp, states: unknown, notes };
  }
  if (view.layer === 'clusters') {
    const patterns = CLUSTER_PATTERNS.filter((pattern) => pattern !== 'too little tested');
    const ramp = patterns.map((pattern) => solid(PATTERN_FILL[pattern].tone, layers.patterns[pattern]));
    return {
      ...{ heading: layers.legend.clusters, ramp, notes },
      states: [...faintly('level', layers.legend.faintClusters), ...unknown],
    };
  }
  const isSpread = view.layer === 'spread';
  return {
    heading: isSpread ? layers.legend.spread : layers.legend.found,
    ramp: finds,
    states: [
      ...faintly('share-3', isSpread ? layers.legend.faintSpread : layers.legend.faintFound),
      ...undated,
      ...states,
    ],
    notes: map.front ? [layers.legend.front] : [],
  };
}

function plain(states: LegendEntry[], notes: string[]): MapLegend {
  return { heading: null, ramp: [], states, notes };
}
