import type { Clustering, FirstDetection, MatchedChange, SpeedOfSpread, Trend } from '@/lib/findings/types';
import { periodLabel } from '@/lib/vocabulary/terms';
import { en } from '../messages/en';
import { detectionWords, sentenceStart } from '../messages/sentences';
import { findPlace } from '../view/places';
import type { Report } from '../view/read-report';
import { ClusteringTests } from './clustering-tests';

/** What can be concluded from the released numbers, in sentences. */
export function Findings({ report: { head, view, region, findings } }: { report: Report }) {
  const window = view.window === 'all' ? head.windows.at(-1) : view.window;
  const inWindow = (period: { first: number; last: number }) =>
    period.first === window?.first && period.last === window.last;
  const clustering = findings.filter(
    (finding): finding is Clustering => finding.kind === 'clustering' && inWindow(finding.period),
  );
  const changes = findings.filter((finding): finding is MatchedChange => finding.kind === 'matched change');
  const trends = findings.filter((finding): finding is Trend => finding.kind === 'trend');
  const speeds = findings.filter((finding): finding is SpeedOfSpread => finding.kind === 'speed');
  const detections = findings.filter(
    (finding): finding is FirstDetection =>
      finding.kind === 'first detection' && finding.placeKind === view.by && inWindow(finding.period),
  );
  const nameOf = ({ place }: FirstDetection) => findPlace(region, place).fullName;
  const found = window ? detectionWords(detections, nameOf, window) : [];
  const said = [
    { name: en.findings.clustering, sentences: clustering.map(words) },
    { name: en.findings.change, sentences: changes.map(words) },
    { name: en.findings.trend, sentences: trends.map(words) },
    { name: en.findings.speed, sentences: speeds.map(words) },
    { name: en.findings.found, sentences: found },
  ].filter(({ sentences }) => sentences.length > 0);
  return (
    <section className="findings" aria-labelledby="findings-heading">
      <h2 id="findings-heading">{en.findings.heading}</h2>
      {said.length === 0 ? <p>{en.findings.none}</p> : null}
      <dl>
        {said.map(({ name, sentences }) => (
          <div key={name}>
            <dt>{name}</dt>
            {[...new Set(sentences)].map((sentence) => (
              <dd key={sentence}>{sentence}</dd>
            ))}
            {name === en.findings.clustering && clustering.some(({ global }) => global) ? (
              <dd>
                {clustering.map((finding) => (
                  <ClusteringTests key={finding.grain} finding={finding} />
                ))}
              </dd>
            ) : null}
          </div>
        ))}
      </dl>
      <p className="quiet">
        {window && view.window === 'all' ? `Windowed findings are those of ${periodLabel(window)}. ` : ''}
        {en.findings.note}
      </p>
    </section>
  );
}

function words({ sentence, reason }: Clustering | MatchedChange | SpeedOfSpread | Trend): string {
  return sentenceStart(reason && !sentence.includes(reason) ? `${sentence} ${reason}` : sentence);
}
