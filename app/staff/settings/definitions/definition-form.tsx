import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import { ActionForm } from '../../components/action-form';
import { Field } from '../../components/field';
import { settingsTexts } from '../../messages/settings';
import { addDefinition } from './actions';

const texts = settingsTexts.definitions;

/** A definition of the programme's own, begun with the numbers of the one in force. */
export function DefinitionForm({ like }: { like: CaseDefinition }) {
  const { resistantPercent, survivorsPercent, emergence, exactLimits, minimumPlants } = like;
  return (
    <section aria-labelledby="add">
      <h2 id="add">{texts.addHeading}</h2>
      <ActionForm action={addDefinition} submit={texts.add}>
        <Field name="version" label={texts.version} hint={texts.versionHint} required />
        <Field
          name="resistantPercent"
          label={texts.resistantPercent}
          value={String(resistantPercent)}
          required
        />
        <Field
          name="survivorsPercent"
          label={texts.survivorsPercent}
          value={String(survivorsPercent)}
          required
        />
        <Field name="emergence" label={texts.emergence} value={String(emergence.percent)} required />
        <Field
          name="exactLimits"
          label={texts.exactLimits}
          hint={texts.exactHint}
          value={exactLimits === null ? '' : String(exactLimits)}
        />
        {(
          [
            ['wholePlant', 'whole plant'],
            ['soilApplied', 'soil-applied'],
            ['molecular', 'molecular'],
          ] as const
        ).map(([name, assay]) => (
          <Field
            key={name}
            name={name}
            label={`${texts.minimum}: ${assay}`}
            value={String(minimumPlants[assay])}
            required
          />
        ))}
        <Field name="words" label={texts.words} lines={3} required />
        <Field name="source" label={texts.source} required />
      </ActionForm>
    </section>
  );
}
