import type { Clustering, SpeedOfSpread } from '@/lib/findings/types';
import type { Design, Eppo, Group, Pair, Period } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';

/** What an analysis says of one map, without the tests behind it. Private. */
export interface ClusteringLine extends Pick<Clustering, 'verdict' | 'where' | 'sentence' | 'p' | 'madeOf'> {
  species: Eppo;
  group: Group;
  period: Period;
  design: Design | null;
  grain: Clustering['grain'];
}

/** What it says of a speed. Private. */
export interface SpeedLine extends Pick<SpeedOfSpread, 'speed' | 'low' | 'high' | 'sentence'> {
  species: Eppo;
  group: Group;
  design: Design | null;
  nearness: string;
  nearnessSentence: string;
  trendSentence: string;
}

/** The verdicts of all maps of an analysis, in the order of their keys. */
export async function clusteringLines(db: StaffDatabase, id: number): Promise<ClusteringLine[]> {
  return db.$client<ClusteringLine[]>`
    select species, group_number as "group", result->'period' as period, result->>'design' as design,
      result->>'grain' as grain, result->'clustering'->>'verdict' as verdict, result->'clustering'->'where' as "where",
      result->'clustering'->>'sentence' as sentence, (result->'clustering'->>'p')::float8 as p,
      result->'clustering'->'madeOf' as "madeOf"
    from surveillance.analysis_part where analysis_id = ${id} and kind = 'map' order by species, group_number, key`;
}

/** Speed, nearness and trend of every spread of an analysis, in the order of their keys. */
export async function speedLines(db: StaffDatabase, id: number): Promise<SpeedLine[]> {
  return db.$client<SpeedLine[]>`
    select species, group_number as "group", result->>'design' as design, (result->'speed'->>'speed')::float8 as speed,
      (result->'speed'->>'low')::float8 as low, (result->'speed'->>'high')::float8 as high,
      result->'speed'->>'sentence' as sentence, result->'nearness'->>'verdict' as nearness,
      result->'nearness'->>'sentence' as "nearnessSentence", result->'trend'->>'sentence' as "trendSentence"
    from surveillance.analysis_part where analysis_id = ${id} and kind = 'spread' order by species, group_number, key`;
}

/** The pairs that an analysis looked at, in order. */
export async function analysedPairs(db: StaffDatabase, id: number): Promise<Pair[]> {
  return db.$client<Pair[]>`
    select distinct species, group_number as "group" from surveillance.analysis_part
    where analysis_id = ${id} and group_number is not null order by species, group_number`;
}
