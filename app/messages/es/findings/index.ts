import type { FirstDetection, MatchedChange } from '@/lib/findings/types';
import { probability } from '@/lib/findings/wording';
import type { Region } from '@/lib/geography/types';
import type { Said, Told } from '../../en/sentences';
import { sentenceStart } from '../../format';
import { clusteringWords } from './clustering';
import { firstDetection } from './first-detection';
import { placeNameOf } from './place-name';
import { reasonWords } from './reasons';
import { matchedChangeWords, trendWords } from './series';
import { speedWords } from './speed';

export const submissionsCaution =
  'Los productores envían lo que sospechan: una tendencia en los envíos no es una tendencia en la resistencia.';

export function findingWords(finding: Told, region: Region): Said {
  const reason = finding.reason === null ? '' : reasonWords(finding.reason);
  const compared = finding.kind === 'matched change' || finding.kind === 'trend';
  const words = [
    ...[toldWords(finding, region), reason ?? '', untoldChance(finding)],
    ...(compared ? [submissionsCaution] : []),
  ];
  return {
    words: sentenceStart(words.filter(Boolean).join(' ')),
    asWritten: reason === null ? finding.reason : null,
  };
}

export function changeWords(change: MatchedChange): string {
  return sentenceStart(matchedChangeWords(change));
}

export function firstDetectionWords(detection: FirstDetection, region: Region): string {
  return sentenceStart(firstDetection(detection, placeNameOf(region)));
}

function toldWords(finding: Told, region: Region): string {
  switch (finding.kind) {
    case 'clustering':
      return clusteringWords(finding, placeNameOf(region));
    case 'matched change':
      return matchedChangeWords(finding);
    case 'trend':
      return trendWords(finding);
    case 'speed':
      return speedWords(finding, placeNameOf(region));
  }
}

/** Of a trend of which only its chance can be told. */
function untoldChance(finding: Told): string {
  const isUntold = finding.kind === 'trend' && finding.oddsRatio === null && finding.p !== null;
  return isUntold ? `(${probability(finding.p!)})` : '';
}
