'use client';

import { use, useId, useOptimistic, useTransition } from 'react';
import { ChoiceContext } from './choice-form';

/** Options by group: key and words of each. A group without a label stands free. */
export type Choices = readonly {
  label?: string;
  options: readonly (readonly [key: string, words: string])[];
}[];

/** One labelled list of the form. Choosing shows the new view; until that is there, the list keeps the choice. */
export function Choice(props: { name: string; label: string; value: string; choices: Choices }) {
  const { name, label, value, choices } = props;
  const id = useId();
  const follow = use(ChoiceContext);
  const [, startTransition] = useTransition();
  const [chosen, setChosen] = useOptimistic(value);
  return (
    <div className={`choice choice-${name}`}>
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        name={name}
        value={chosen}
        onChange={(event) => {
          const { value: next, form } = event.currentTarget;
          startTransition(() => {
            setChosen(next);
            if (form) follow(new FormData(form));
          });
        }}
      >
        {choices.map(({ label: heading, options }) =>
          heading ? (
            <optgroup key={heading} label={heading}>
              {options.map(option)}
            </optgroup>
          ) : (
            options.map(option)
          ),
        )}
      </select>
    </div>
  );
}

function option([key, words]: readonly [string, string]) {
  return (
    <option key={key} value={key}>
      {words}
    </option>
  );
}
