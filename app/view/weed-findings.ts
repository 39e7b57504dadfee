import type { Clustering, FirstDetection, SpeedOfSpread } from '@/lib/findings/types';
import type { Group } from '@/lib/vocabulary/terms';
import type { WeedReport } from './weed-report';

/** What the released numbers say of the groups of a weed in a window. */
export interface WeedFindings {
  /** Groups with something to tell, ascending. */
  told: { group: Group; clusters: Clustering[]; speeds: SpeedOfSpread[]; first: FirstDetection[] }[];
  /** Groups whose map shows no sign of a cluster, or is too little tested to say. */
  noSign: Group[];
  tooLittle: Group[];
  /** Groups screened in the window for which no speed can be told. */
  noSpeed: Group[];
}

/**
 * Clusters of the finest grain that was tested, told speeds, and first detections of districts (of states where there
 * are no districts). Speeds are those over all seasons, whatever the window.
 */
export function weedFindings({ groups, findings, window, region }: WeedReport): WeedFindings {
  const kind = region.districts.length > 0 ? 'district' : 'state';
  const inWindow = ({ period }: Clustering | FirstDetection) =>
    period.first >= window.first && period.last <= window.last;
  const all = groups.map(({ group }) => {
    const own = findings.filter((finding) => finding.group === group);
    const maps = own.filter(
      (one): one is Clustering => one.kind === 'clustering' && one.grain === 'area' && inWindow(one),
    );
    return {
      group,
      maps,
      clusters: maps.filter(({ verdict }) => verdict === 'lie together'),
      allSpeeds: own.filter((one): one is SpeedOfSpread => one.kind === 'speed'),
      first: own.filter(
        (one): one is FirstDetection =>
          one.kind === 'first detection' && one.placeKind === kind && inWindow(one),
      ),
    };
  });
  const withVerdict = (wanted: Clustering['verdict']) =>
    all.filter(({ maps }) => maps.some(({ verdict }) => verdict === wanted)).map(({ group }) => group);
  return {
    told: all
      .map(({ group, clusters, allSpeeds, first }) => ({
        group,
        clusters,
        first,
        speeds: allSpeeds.filter(({ speed }) => speed !== null),
      }))
      .filter(({ clusters, speeds, first }) => clusters.length + speeds.length + first.length > 0),
    noSign: withVerdict('no sign'),
    tooLittle: withVerdict('too little tested'),
    noSpeed: all
      .filter(({ allSpeeds }) => allSpeeds.length > 0 && allSpeeds.every(({ speed }) => speed === null))
      .map(({ group }) => group),
  };
}
