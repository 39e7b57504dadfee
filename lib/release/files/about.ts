import { SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import type { ReleaseDraft } from '../types';
import { type Licence, licenceOf } from './licence';

/** What every descriptor and citation says of a release, in the same words. */
export interface About {
  /** `fencerow-release-3`, with `-simulated` where it is. */
  stem: string;
  number: number;
  title: string;
  description: string;
  programme: string;
  /** ISO day. */
  date: string;
  simulated: boolean;
  keywords: string[];
  /** Chosen by the programme; null where it chose none, which files say as `NO_LICENCE`. */
  licence: Licence | null;
  /** First and last season with anything shown. */
  seasons: { first: number; last: number };
}

export function aboutRelease({ head }: Pick<ReleaseDraft, 'head'>, number: number): About {
  const last = head.openSeason ?? head.closedSeasons.at(-1) ?? head.firstSeason;
  return {
    stem: `fencerow-release-${number}${head.simulated ? '-simulated' : ''}`,
    number,
    title: `${head.simulated ? 'Simulated: herbicide' : 'Herbicide'} resistance screening in ${head.region}, release ${number}`,
    description: `${head.simulated ? `${SIMULATED_NOTICE} ` : ''}Weed populations screened for herbicide resistance in ${head.region}, counted by place, period, species and site-of-action group, small counts withheld. Counts are of submitted samples unless the design says random.`,
    programme: head.programme,
    date: head.date,
    simulated: head.simulated,
    keywords: ['herbicide resistance', 'weeds', 'greenhouse screening', ...head.states],
    licence: licenceOf(head.licence),
    seasons: { first: head.firstSeason, last },
  };
}
