import { species as speciesOf } from '@/lib/vocabulary/species';
import { unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import { heldRelease } from '../view/asked-release';
import { weedPath, weedsPath } from '../view/find-weed';
import type { WeedReport } from '../view/weed-report';
import { Cautions } from './cautions';
import { Errata } from './errata';
import { Masthead } from './masthead';
import { Misfits } from './misfits';
import { ReleaseNote } from './release-note';
import { WeedAbout } from './weed-about';
import { WeedActives } from './weed-actives';
import { StripPatterns } from './weed-cell';
import { WeedDistricts } from './weed-districts';
import { WeedFindings } from './weed-findings';
import { WeedGroups } from './weed-groups';
import { WeedMultiple } from './weed-multiple';
import { WindowLinks } from './window-links';

/** One weed, all groups: what was still controlled in the greenhouse and what was not, and how to tell it. */
export function WeedPage({ speech, report }: { speech: Speech; report: WeedReport }) {
  const { texts, at } = speech;
  const { head, region, species, window, misfits, groups } = report;
  const pathOf = (release?: number, of = window) => weedPath(species, { window: of, release });
  const name = texts.weedName(species);
  return (
    <>
      <title>{`${texts.weed.title(name, head.region)} · ${texts.name}`}</title>
      <Masthead
        speech={speech}
        here={pathOf(heldRelease(report))}
        programme={head.programme}
        simulated={head.simulated}
      />
      <main id="content" className="weed">
        <StripPatterns />
        <ReleaseNote speech={speech} shown={report} hrefOf={(release) => at(pathOf(release))} />
        <Errata speech={speech} release={head.number} errata={report.errata} />
        <div className="headline">
          <Misfits speech={speech} misfits={misfits} />
          <h1>
            {texts.weed.title(name, region.name)}{' '}
            <small lang="la">{speciesOf(species)?.scientificName}</small>
          </h1>
          {groups.length === 0 ? (
            <p>{texts.weed.nothing(name)}</p>
          ) : (
            texts.weed.headline(report).map((sentence) => <p key={sentence}>{unbroken(sentence)}</p>)
          )}
          <p className="quiet">
            {texts.say.submissionsCaution} {texts.county.release(head.number, texts.day(head.date))}{' '}
            <a href={at(weedsPath(heldRelease(report)))}>{texts.weed.all(region.name)}</a>
          </p>
        </div>
        {groups.length > 0 ? (
          <>
            <WindowLinks
              label={texts.weed.windows}
              hrefOf={(one) => at(pathOf(head.number, one))}
              windows={head.windows}
              chosen={window}
            />
            <WeedGroups speech={speech} report={report} />
            <WeedDistricts speech={speech} report={report} />
            <WeedActives speech={speech} report={report} />
            <WeedMultiple speech={speech} report={report} />
            <WeedFindings speech={speech} report={report} />
          </>
        ) : null}
        <WeedAbout speech={speech} eppo={species} />
        <Cautions speech={speech} />
      </main>
    </>
  );
}
