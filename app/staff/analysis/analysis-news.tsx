import { list } from '@/app/messages/en/format';
import type { ClusteringLine, SpeedLine } from '@/db/repositories/analysis-overview';
import { countyName } from '@/lib/geography/atlas';
import { type AnalysisLines, analysisChanges } from '@/lib/jobs/analysis-changes';
import { periodLabel } from '@/lib/vocabulary/terms';
import { analysisTexts as texts } from '../messages/analysis';
import { pairWords } from '../messages/pairs';

/** How many maps have which verdict, and what is new since the analysis before. */
export function AnalysisNews(props: {
  now: AnalysisLines;
  before: AnalysisLines | null;
  hasBefore: boolean;
}) {
  const { now, before, hasBefore } = props;
  return (
    <section aria-labelledby="news">
      <h2 id="news">{texts.changes}</h2>
      <ul className="staff-facts">
        {(['lie together', 'no sign', 'too little tested'] as const).map((verdict) => (
          <li key={verdict}>
            {texts.verdictCount(
              now.maps.filter((map) => map.verdict === verdict).length,
              texts.verdicts[verdict],
            )}
          </li>
        ))}
      </ul>
      {before ? <News now={now} before={before} /> : <p>{hasBefore ? texts.otherMethods : texts.noBefore}</p>}
    </section>
  );
}

function News({ now, before }: { now: AnalysisLines; before: AnalysisLines }) {
  const { verdicts, clusters, speeds } = analysisChanges(before, now);
  const lines = [
    ...verdicts.map(({ map, before: was }) =>
      texts.verdictChange(mapWords(map), texts.verdicts[map.verdict], was && texts.verdicts[was]),
    ),
    ...clusters.map(({ map, joined, left }) =>
      texts.clusterChange(mapWords(map), places(joined), places(left)),
    ),
    ...speeds.map(({ now: line, before: was }) => {
      const what = `${pairWords(line)}, ${designWords(line)}`;
      if (line.speed === null) return texts.speedGone(what, speedWords(was));
      if (was.speed === null) return texts.speedTold(what, speedWords(line));
      return texts.speedOther(what, speedWords(line), speedWords(was));
    }),
  ];
  if (lines.length === 0) return <p>{texts.noChanges}</p>;
  return (
    <ul className="staff-list">
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}

function mapWords(map: ClusteringLine): string {
  return `${pairWords(map)}, ${periodLabel(map.period)}, ${designWords(map)}`;
}

function designWords({ design }: Pick<ClusteringLine, 'design'>): string {
  return design === null ? texts.allDesigns : texts.designOnly(design);
}

function speedWords({ speed, low, high }: Pick<SpeedLine, 'speed' | 'low' | 'high'>): string {
  return texts.speed(speed!, low!, high!);
}

function places(keys: readonly string[]): string {
  return list(
    keys.map((key) => countyName(key) ?? key),
    { limit: 6, comma: '; ' },
  );
}
