import { herbicideName, weedName } from '@/app/messages/en/names';
import { type Group, periodKey, periodLabel } from '@/lib/vocabulary/terms';
import { ChoiceField } from '../components/field';
import { briefingTexts as texts } from '../messages/briefing';
import type { Scope } from './read-scope';

/** What a briefing is to be about: an ordinary form, so that the address holds the choice. */
export function ChoiceForm({
  scope,
  asked,
  groups,
  species,
}: {
  scope: Scope;
  /** What the address holds. */
  asked: URLSearchParams;
  /** Those to choose from. */
  groups: readonly Group[];
  species: string;
}) {
  const { releases, pairs, leading, windows, districts, crops, funders } = scope;
  const [first, second] = asked.getAll('group');
  const options = groups.map((group) => [String(group), herbicideName(group).long] as const);
  const named = (names: readonly string[]) => [
    ['', texts.all] as const,
    ...names.map((name) => [name, name] as const),
  ];
  return (
    <form action="/staff/briefing" method="get" className="staff-filter" aria-label={texts.choose}>
      {releases ? (
        <>
          <input type="hidden" name="source" value="release" />
          <ChoiceField
            name="release"
            label={texts.release}
            value={String(releases.chosen)}
            options={releases.all.map((number) => [String(number), texts.releaseNumber(number)])}
          />
        </>
      ) : null}
      <ChoiceField
        name="species"
        label={texts.species}
        value={species}
        options={[...new Set(pairs.map((pair) => pair.species))].map((eppo) => [
          eppo,
          weedName(eppo, { latin: true }),
        ])}
      />
      <ChoiceField
        name="group"
        label={texts.group}
        value={first ?? String(leading.group)}
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
        value={asked.get('window') ?? periodKey(windows.at(-1)!)}
        options={[...windows].reverse().map((one) => [periodKey(one), periodLabel(one)])}
      />
      <ChoiceField
        name="district"
        label={texts.district}
        value={asked.get('district') ?? ''}
        options={[['', texts.region], ...districts.map(({ code, name }) => [code, name] as const)]}
      />
      {releases ? null : (
        <>
          <ChoiceField
            name="crop"
            label={texts.crop}
            value={asked.get('crop') ?? ''}
            options={named(crops)}
          />
          <ChoiceField
            name="funder"
            label={texts.funder}
            value={asked.get('funder') ?? ''}
            options={named(funders)}
          />
        </>
      )}
      <button type="submit">{texts.show}</button>
    </form>
  );
}
