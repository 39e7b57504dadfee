import { herbicideName, weedName } from '@/app/messages/en/names';
import { windowKey } from '@/lib/briefing/choose';
import { BRIEFING_KINDS, briefingOf } from '@/lib/briefing/make-briefing';
import { titleOf } from '@/lib/briefing/title';
import { privateBriefingScope } from '@/lib/jobs/private-briefing';
import { periodLabel } from '@/lib/vocabulary/terms';
import { ChoiceField } from '../components/field';
import { staffPage } from '../guard/staff-page';
import { briefingTexts as texts } from '../messages/briefing';
import { numbersOf, orderOf } from './read-order';
import { SentenceFields } from './sentence-fields';

/** A board's briefing from exact counts: chosen, its headlines read and worded, and taken as a document. */
export default staffPage('briefing.make', async ({ db, side, programme, search }) => {
  const scope = programme ? await privateBriefingScope(db, programme) : null;
  if (!scope?.leading) return { title: texts.title, content: <p>{texts.nothing}</p> };
  const species = textOf(search.species) ?? scope.leading.species;
  const groups = scope.pairs.filter((pair) => pair.species === species).map(({ group }) => group);
  // Another weed may have been chosen beside a group of the last one.
  const asked = new URLSearchParams(
    Object.entries(search)
      .flatMap(([name, value]) => [value ?? []].flat().map((one) => [name, one] as const))
      .filter(([name, value]) => name !== 'group' || groups.map(String).includes(value))
      .map(([name, value]) => [name, value]),
  );
  const [first, second] = asked.getAll('group');
  const isAsked = asked.has('species');
  const briefing = isAsked ? briefingOf(await numbersOf(db, orderOf(asked))) : null;
  const allGroups = [...new Set(scope.pairs.map(({ group }) => group))].sort((a, b) => a - b);
  const options = (isAsked ? groups : allGroups).map(
    (group) => [String(group), herbicideName(group).long] as const,
  );
  const named = (names: readonly string[]) => [
    ['', texts.all] as const,
    ...names.map((name) => [name, name] as const),
  ];
  return {
    title: texts.title,
    cautions: true,
    content: (
      <>
        <p>{texts.intro}</p>
        <p>
          {texts.publicOne} <a href={`${side.settings.publicSite}/briefing`}>{texts.publicLink}</a>
        </p>
        <form action="/staff/briefing" method="get" className="staff-filter" aria-label={texts.choose}>
          <ChoiceField
            name="species"
            label={texts.species}
            value={species}
            options={[...new Set(scope.pairs.map((pair) => pair.species))].map((eppo) => [
              eppo,
              weedName(eppo, { latin: true }),
            ])}
          />
          <ChoiceField
            name="group"
            label={texts.group}
            value={first ?? String(scope.leading.group)}
            options={options}
          />
          <ChoiceField
            name="group"
            label={texts.second}
            value={second ?? ''}
            options={[['', texts.none], ...options]}
          />
          <ChoiceField
            name="window"
            label={texts.window}
            value={asked.get('window') ?? windowKey(scope.windows.at(-1)!)}
            options={[...scope.windows].reverse().map((one) => [windowKey(one), periodLabel(one)])}
          />
          <ChoiceField
            name="district"
            label={texts.district}
            value={asked.get('district') ?? ''}
            options={[['', texts.region], ...scope.districts.map(({ code, name }) => [code, name] as const)]}
          />
          <ChoiceField
            name="crop"
            label={texts.crop}
            value={asked.get('crop') ?? ''}
            options={named(scope.crops)}
          />
          <ChoiceField
            name="funder"
            label={texts.funder}
            value={asked.get('funder') ?? ''}
            options={named(scope.funders)}
          />
          <button type="submit">{texts.show}</button>
        </form>
        {briefing ? (
          <form action="/staff/briefing/document" method="post">
            <h2>{texts.headlines}</h2>
            <p>
              <strong>{titleOf(briefing.numbers)}</strong>
            </p>
            <p>{texts.edit}</p>
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

function textOf(value: string | string[] | undefined): string | null {
  return typeof value === 'string' && value !== '' ? value : null;
}
