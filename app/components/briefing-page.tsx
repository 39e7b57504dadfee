import { type BriefingChoice, MOST_GROUPS } from '@/lib/briefing/choose';
import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import { periodKey, periodLabel } from '@/lib/vocabulary/terms';
import { sentenceStart } from '../messages/format';
import type { Speech } from '../messages/texts';
import { Cautions } from './cautions';
import { Masthead } from './masthead';

/** Chooses a briefing: a weed by link, the rest by a plain form whose two buttons lead to the two documents. */
export function BriefingPage({
  speech,
  head,
  region,
  choice,
}: {
  speech: Speech;
  head: ReleaseHead;
  region: Region;
  choice: BriefingChoice;
}) {
  const { texts, at } = speech;
  const species = [...new Set(head.pairs.map((pair) => pair.species))];
  const groups = head.pairs.filter((pair) => pair.species === choice.species).map(({ group }) => group);
  const document = (kind: string) => `/releases/${head.number}/briefing.${kind}`;
  return (
    <>
      <title>{`${texts.briefing.heading} · ${texts.name}`}</title>
      <Masthead speech={speech} here="/briefing" programme={head.programme} simulated={head.simulated} />
      <main id="content" className="briefing">
        <div className="headline">
          <h1>{texts.briefing.heading}</h1>
          <p>{texts.briefing.intro}</p>
          <p className="quiet">{texts.county.release(head.number, texts.day(head.date))}</p>
        </div>
        <nav aria-labelledby="weed-heading">
          <h2 id="weed-heading">{texts.briefing.weed}</h2>
          <ul>
            {species.map((eppo) => (
              <li key={eppo}>
                <a
                  href={at(`/briefing?species=${eppo}`)}
                  aria-current={eppo === choice.species ? 'true' : undefined}
                >
                  {sentenceStart(texts.weedName(eppo, { latin: true }))}
                </a>
              </li>
            ))}
          </ul>
        </nav>
        <form action={document('pdf')} method="get">
          <input type="hidden" name="species" value={choice.species} />
          <fieldset>
            <legend>{texts.briefing.groups(MOST_GROUPS)}</legend>
            {groups.map((group) => (
              <label key={group}>
                <input
                  type="checkbox"
                  name="group"
                  value={group}
                  defaultChecked={choice.groups.includes(group)}
                />{' '}
                {texts.herbicideName(group).long}
              </label>
            ))}
          </fieldset>
          <fieldset>
            <legend>{texts.briefing.seasons}</legend>
            {[...head.windows].reverse().map((window) => (
              <label key={window.first}>
                <input
                  type="radio"
                  name="window"
                  value={periodKey(window)}
                  defaultChecked={window.first === choice.window.first}
                />{' '}
                {periodLabel(window)}
              </label>
            ))}
          </fieldset>
          {region.districts.length > 0 ? (
            <fieldset>
              <legend>{texts.briefing.districts}</legend>
              {region.districts.map(({ code, name }) => (
                <label key={code}>
                  <input type="checkbox" name="district" value={code} /> {name}
                </label>
              ))}
            </fieldset>
          ) : null}
          <p>
            <button type="submit">{texts.briefing.pdf}</button>{' '}
            <button type="submit" formAction={document('pptx')}>
              {texts.briefing.pptx}
            </button>
          </p>
          <p className="quiet">{texts.briefing.staff}</p>
        </form>
        <Cautions speech={speech} />
      </main>
    </>
  );
}
