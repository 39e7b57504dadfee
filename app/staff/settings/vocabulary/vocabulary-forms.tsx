import type { ReactNode } from 'react';
import { ActionForm } from '../../components/action-form';
import { ChoiceField, Field } from '../../components/field';
import { settingsTexts } from '../../messages/settings';
import { addActive, addWeed, addWord } from './actions';

const texts = settingsTexts.vocabulary;

/** Three forms: a word for a weed, an active, a weed. */
export function VocabularyForms() {
  return (
    <>
      <Part heading={texts.wordHeading} action={addWord}>
        <Field name="word" label={texts.wordField} required />
        <Field name="eppo" label={texts.eppo} required />
      </Part>
      <Part heading={texts.activeHeading} action={addActive}>
        <Field name="name" label={texts.activeName} required />
        <Field name="group" label={texts.group} required />
      </Part>
      <Part heading={texts.weedHeading} action={addWeed}>
        <Field name="eppo" label={texts.eppo} required />
        <Field name="scientificName" label={texts.scientific} required />
        <Field name="commonName" label={texts.common} required />
        <ChoiceField name="plantType" label={texts.kind} value="broadleaf" options={texts.kinds} />
      </Part>
    </>
  );
}

function Part(props: { heading: string; action: typeof addWord; children: ReactNode }) {
  const { heading, action, children } = props;
  return (
    <section aria-label={heading}>
      <h2>{heading}</h2>
      <ActionForm action={action} submit={texts.add}>
        {children}
        <Field name="source" label={texts.source} required />
      </ActionForm>
    </section>
  );
}
