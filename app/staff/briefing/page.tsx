import { BRIEFING_KINDS, briefingOf } from '@/lib/briefing/make-briefing';
import { titleOf } from '@/lib/briefing/title';
import { ChoiceField } from '../components/field';
import { staffPage } from '../guard/staff-page';
import { briefingTexts as texts } from '../messages/briefing';
import { ChoiceForm } from './choice-form';
import { BRIEFING_SOURCES, type BriefingSource, numbersOf, orderOf } from './read-order';
import { readScope } from './read-scope';
import { SentenceFields } from './sentence-fields';

/** A board's briefing of exact counts or of a release: chosen, its headlines read and worded, and taken as a document. */
export default staffPage('briefing.make', async ({ db, side, programme, search }) => {
  const given = new URLSearchParams(
    Object.entries(search).flatMap(([name, value]) => [value ?? []].flat().map((one) => [name, one])),
  );
  const { source } = orderOf(given);
  const intro = (
    <>
      <SourceLinks chosen={source} />
      <p>{texts.intro[source]}</p>
      {source === 'release' ? (
        <p>
          {texts.unworded} <a href={`${side.settings.publicSite}/briefing`}>{texts.publicLink}</a>
        </p>
      ) : null}
    </>
  );
  const scope = programme ? await readScope(db, orderOf(given)) : null;
  if (!scope) {
    const content = (
      <>
        {intro}
        <p>{texts.nothing[source]}</p>
      </>
    );
    return { title: texts.title, content };
  }
  const species = given.get('species') || scope.leading.species;
  const ofSpecies = scope.pairs.filter((pair) => pair.species === species).map(({ group }) => group);
  // Another weed may have been chosen beside a group of the last one.
  const asked = new URLSearchParams(
    [...given].filter(([name, value]) => name !== 'group' || ofSpecies.map(String).includes(value)),
  );
  // A newer release may come before the document is made.
  if (scope.releases) asked.set('release', String(scope.releases.chosen));
  const isAsked = asked.has('species');
  const briefing = isAsked ? briefingOf(await numbersOf(db, orderOf(asked), scope.store)) : null;
  const allGroups = [...new Set(scope.pairs.map(({ group }) => group))].sort((a, b) => a - b);
  return {
    title: texts.title,
    cautions: true,
    content: (
      <>
        {intro}
        <ChoiceForm scope={scope} asked={asked} species={species} groups={isAsked ? ofSpecies : allGroups} />
        {briefing ? (
          <form action="/staff/briefing/document" method="post" className="staff-form">
            <h2>{texts.headlines}</h2>
            <p>
              <strong>{titleOf(briefing.numbers)}</strong>
            </p>
            <p>{texts.edit}</p>
            {source === 'release' ? <p>{texts.handedOn}</p> : null}
            {[...asked].map(([name, value], i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a group may stand there twice
              <input key={i} type="hidden" name={name} value={value} />
            ))}
            <SentenceFields sentences={briefing.headlines} />
            <ChoiceField
              name="kind"
              label={texts.kind}
              value="pdf"
              options={BRIEFING_KINDS.map((kind) => [kind, texts.kinds[kind]])}
            />
            <button type="submit">{texts.make}</button>
          </form>
        ) : null}
      </>
    ),
  };
});

function SourceLinks({ chosen }: { chosen: BriefingSource }) {
  return (
    <nav className="staff-switch" aria-label={texts.source}>
      <span aria-hidden="true">{texts.source}</span>
      {BRIEFING_SOURCES.map((source) => (
        <a
          key={source}
          href={source === 'private' ? '/staff/briefing' : `/staff/briefing?source=${source}`}
          aria-current={source === chosen ? 'true' : undefined}
        >
          {texts.sources[source]}
        </a>
      ))}
    </nav>
  );
}
