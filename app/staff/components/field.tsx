'use client';

import { type HTMLInputTypeAttribute, type ReactNode, useId } from 'react';
import { useEntered } from './action-form';

interface Common {
  name: string;
  label: string;
  /** What to enter, in a sentence. */
  hint?: string;
  required?: boolean;
}

/** A labelled text field of an `ActionForm`, with its hint, and what is wrong with it after sending. */
export function Field(
  props: Common & {
    type?: HTMLInputTypeAttribute;
    value?: string;
    autoComplete?: string;
    /** More than one line. */
    lines?: number;
  },
) {
  const { name, type = 'text', value = '', required, autoComplete, lines } = props;
  const entered = useEntered(name);
  const shared = { name, required, autoComplete, defaultValue: text(entered.value) ?? value };
  return (
    <Labelled {...props} wrong={entered.wrong}>
      {(ids) =>
        lines ? <textarea {...shared} {...ids} rows={lines} /> : <input {...shared} {...ids} type={type} />
      }
    </Labelled>
  );
}

/** A labelled list to choose one from. */
export function ChoiceField(
  props: Common & { value?: string; options: readonly (readonly [value: string, words: string])[] },
) {
  const { name, value = '', required, options } = props;
  const entered = useEntered(name);
  const chosen = text(entered.value) ?? value;
  return (
    <Labelled {...props} wrong={entered.wrong}>
      {(ids) => (
        <select {...ids} key={chosen} name={name} required={required} defaultValue={chosen}>
          {options.map(([key, words]) => (
            <option key={key} value={key}>
              {words}
            </option>
          ))}
        </select>
      )}
    </Labelled>
  );
}

/** Boxes to tick, none, one or several of them. */
export function TickField(
  props: Omit<Common, 'required'> & {
    values?: readonly string[];
    options: readonly (readonly [value: string, words: string, hint?: string])[];
  },
) {
  const { name, label, hint, values = [], options } = props;
  const { value, wrong } = useEntered(name);
  const ticked = value === undefined ? values : [value].flat();
  const id = useId();
  return (
    <fieldset className="staff-field staff-ticks" aria-describedby={wrong ? `${id}-wrong` : undefined}>
      <legend>{label}</legend>
      {hint ? <p className="staff-hint">{hint}</p> : null}
      {options.map(([key, words, more]) => (
        <label key={`${key}${ticked.includes(key)}`}>
          <input type="checkbox" name={name} value={key} defaultChecked={ticked.includes(key)} />
          <span>
            {words}
            {more ? <small>{more}</small> : null}
          </span>
        </label>
      ))}
      {wrong ? (
        <p id={`${id}-wrong`} className="staff-wrong">
          {wrong}
        </p>
      ) : null}
    </fieldset>
  );
}

interface Ids {
  id: string;
  'aria-describedby': string | undefined;
  'aria-invalid': true | undefined;
}

function Labelled(props: Common & { wrong?: string; children: (ids: Ids) => ReactNode }) {
  const { label, hint, wrong, children } = props;
  const id = useId();
  const described = [hint ? `${id}-hint` : '', wrong ? `${id}-wrong` : ''].filter(Boolean).join(' ');
  return (
    <div className="staff-field">
      <label htmlFor={id}>{label}</label>
      {hint ? (
        <p id={`${id}-hint`} className="staff-hint">
          {hint}
        </p>
      ) : null}
      {children({
        id,
        'aria-describedby': described || undefined,
        'aria-invalid': wrong ? true : undefined,
      })}
      {wrong ? (
        <p id={`${id}-wrong`} className="staff-wrong">
          {wrong}
        </p>
      ) : null}
    </div>
  );
}

function text(value: string | string[] | undefined): string | undefined {
  return Array.isArray(value) ? value[0] : value;
}
