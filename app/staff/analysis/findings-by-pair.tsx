import type { ClusteringLine, SpeedLine } from '@/db/repositories/analysis-overview';
import type { MultipleAnalysis } from '@/lib/findings/multiple/types';
import { analysisTexts as texts } from '../messages/analysis';
import { pairKey, pairWords } from '../messages/pairs';

/** What the analysis says of each weed and group, all designs together, in its own sentences. */
export function FindingsByPair(props: {
  maps: readonly ClusteringLine[];
  speeds: readonly SpeedLine[];
  multiple: readonly MultipleAnalysis[];
}) {
  const { maps, speeds, multiple } = props;
  const all = speeds.filter(({ design }) => design === null);
  return (
    <section aria-labelledby="findings">
      <h2 id="findings">{texts.findings}</h2>
      <p>{texts.findingsText}</p>
      {all.map((spread) => {
        const own = maps.filter((map) => map.design === null && pairKey(map) === pairKey(spread));
        const together = own.filter(({ verdict }) => verdict === 'lie together').length;
        const { speed, low, high } = spread;
        const told = speed === null ? null : texts.speed(speed, low!, high!);
        return (
          <details key={pairKey(spread)} className="staff-finding">
            <summary>
              <strong>{pairWords(spread)}</strong>:{' '}
              {texts.inShort(together, own.length, spread.nearness, told)}
            </summary>
            <p>{spread.nearnessSentence}</p>
            <p>{spread.sentence}</p>
            <p>{spread.trendSentence}</p>
            <h3>{texts.together}</h3>
            <ul className="staff-list">
              {own.map(({ sentence }) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
            <p>
              <a href={`/staff/analysis/${pairKey(spread)}`}>{texts.more}</a>
              {' · '}
              <a href={`/staff/map?pair=${pairKey(spread)}`}>{texts.onMap}</a>
            </p>
          </details>
        );
      })}
      <details className="staff-finding">
        <summary>
          <strong>{texts.several}</strong>
        </summary>
        {multiple
          .filter(({ design }) => design === null)
          .map(({ species, sentences }) => (
            <p key={species}>
              {sentences.together} {sentences.growth}
            </p>
          ))}
      </details>
    </section>
  );
}
