import { species as speciesOf } from '@/lib/vocabulary/species';
import { periodLabel } from '@/lib/vocabulary/terms';
import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import { heldRelease } from '../view/asked-release';
import { weedPath, weedsPath } from '../view/find-weed';
import type { WeedsReading } from '../view/read-weed';
import { Cautions } from './cautions';
import { Errata } from './errata';
import { LooksKey } from './looks-key';
import { Masthead } from './masthead';
import { ReleaseNote } from './release-note';
import { StripPatterns, WeedCell } from './weed-cell';

/** All weeds of a release, each with its groups in the whole region. */
export function WeedsPage({
  speech,
  reading,
}: {
  speech: Speech;
  reading: Extract<WeedsReading, { state: 'ready' }>;
}) {
  const { texts, at } = speech;
  const { head, region, window, weeds } = reading;
  const release = heldRelease(reading);
  return (
    <>
      <title>{`${texts.nav.weeds} · ${head.region} · ${texts.name}`}</title>
      <Masthead
        speech={speech}
        here={weedsPath(release)}
        programme={head.programme}
        simulated={head.simulated}
      />
      <main id="content" className="weed">
        <StripPatterns />
        <ReleaseNote speech={speech} shown={reading} hrefOf={(newest) => at(weedsPath(newest))} />
        <Errata speech={speech} release={head.number} errata={reading.errata} />
        <div className="headline">
          <h1>{texts.weed.all(region.name)}</h1>
          <p>{texts.weed.allReading(unbroken(periodLabel(window)))}</p>
          <p className="quiet">
            {texts.say.submissionsCaution} {texts.county.release(head.number, texts.day(head.date))}
          </p>
        </div>
        <LooksKey speech={speech} />
        <ul className="weed-list">
          {weeds.map(({ species, groups }) => (
            <li key={species}>
              <h2>
                <a href={at(weedPath(species, { release }))}>{sentenceStart(texts.weedName(species))}</a>{' '}
                <small lang="la">{speciesOf(species)?.scientificName}</small>
              </h2>
              <ul className="weed-cells">
                {groups.map(({ group, numbers }) => (
                  <li key={group}>
                    <span className="cell-group">{texts.herbicideName(group).short}</span>
                    <WeedCell speech={speech} numbers={numbers} />
                  </li>
                ))}
              </ul>
            </li>
          ))}
        </ul>
        <Cautions speech={speech} />
      </main>
    </>
  );
}
