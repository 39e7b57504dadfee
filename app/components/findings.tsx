import type { Clustering, FirstDetection, MatchedChange, SpeedOfSpread, Trend } from '@/lib/findings/types';
import { periodLabel } from '@/lib/vocabulary/terms';
import type { Speech } from '../messages/texts';
import { findPlace } from '../view/places';
import type { Report } from '../view/read-report';
import { ClusteringTests } from './clustering-tests';
import { FindingSentence } from './finding-sentence';

/** What can be concluded from the released numbers, in sentences. */
export function Findings({
  speech,
  report: { head, view, region, findings },
}: {
  speech: Speech;
  report: Report;
}) {
  const { texts } = speech;
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
  const found = window ? texts.say.detectionWords(detections, nameOf, window) : [];
  const said = [
    { name: texts.findings.clustering, told: clustering },
    { name: texts.findings.change, told: changes },
    { name: texts.findings.trend, told: trends },
    { name: texts.findings.speed, told: speeds },
    { name: texts.findings.found, told: [], sentences: found },
  ].filter(({ told, sentences = [] }) => told.length + sentences.length > 0);
  return (
    <section className="findings" aria-labelledby="findings-heading">
      <h2 id="findings-heading">{texts.findings.heading}</h2>
      {said.length === 0 ? <p>{texts.findings.none}</p> : null}
      <dl>
        {said.map(({ name, told, sentences = [] }) => (
          <div key={name}>
            <dt>{name}</dt>
            {told.map((finding) => (
              <dd key={finding.sentence}>
                <FindingSentence speech={speech} finding={finding} region={region} />
              </dd>
            ))}
            {sentences.map((sentence) => (
              <dd key={sentence}>{sentence}</dd>
            ))}
            {name === texts.findings.clustering && clustering.some(({ global }) => global) ? (
              <dd>
                {clustering.map((finding) => (
                  <ClusteringTests speech={speech} key={finding.grain} finding={finding} />
                ))}
              </dd>
            ) : null}
          </div>
        ))}
      </dl>
      <p className="quiet">
        {window && view.window === 'all' ? `${texts.findings.windowed(periodLabel(window))} ` : ''}
        {texts.findings.note}
      </p>
    </section>
  );
}
