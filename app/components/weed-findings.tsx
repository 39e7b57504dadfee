import type { FirstDetection } from '@/lib/findings/types';
import { periodLabel } from '@/lib/vocabulary/terms';
import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import { heldRelease } from '../view/asked-release';
import { findPlace } from '../view/places';
import { viewHref } from '../view/view';
import { weedFindings } from '../view/weed-findings';
import type { WeedReport } from '../view/weed-report';
import { FindingSentence } from './finding-sentence';

/** Clusters, speed and first finds of each group in sentences, each group with its map. */
export function WeedFindings({ speech, report }: { speech: Speech; report: WeedReport }) {
  const { language, texts } = speech;
  const { species, window, region } = report;
  const { told, noSign, tooLittle, noSpeed } = weedFindings(report);
  const { findings: words } = texts.weed;
  const release = heldRelease(report);
  const nameOf = ({ place }: FirstDetection) => findPlace(region, place).fullName;
  const quiet = [
    ...(noSign.length > 0 ? [words.quiet('no sign', noSign)] : []),
    ...(tooLittle.length > 0 ? [words.quiet('too little tested', tooLittle)] : []),
    ...(noSpeed.length > 0 ? [words.noSpeed(noSpeed)] : []),
  ];
  return (
    <section className="findings" aria-labelledby="findings-heading">
      <h2 id="findings-heading">{words.heading(unbroken(periodLabel(window)))}</h2>
      {told.length + quiet.length === 0 ? <p>{words.none}</p> : null}
      <dl>
        {told.map(({ group, clusters, speeds, first }) => (
          <div key={group}>
            <dt>{sentenceStart(texts.herbicideName(group).short)}</dt>
            {[...clusters, ...speeds].map((finding) => (
              <dd key={finding.sentence}>
                <FindingSentence speech={speech} finding={finding} region={region} />
              </dd>
            ))}
            {texts.say.detectionWords(first, nameOf, window).map((sentence) => (
              <dd key={sentence}>{sentence}</dd>
            ))}
            <dd>
              <a
                href={viewHref(language, { species, group, window, by: 'county', place: 'region', release })}
              >
                {words.map(group)}
              </a>
            </dd>
          </div>
        ))}
      </dl>
      {quiet.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <p className="quiet">{texts.findings.note}</p>
    </section>
  );
}
