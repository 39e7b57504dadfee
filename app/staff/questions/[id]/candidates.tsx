'use client';

import { useState } from 'react';
import { questionTexts as texts } from '../../messages/questions';

/** The answers that fit, by their numbers, and a field for another one. */
export function Candidates({ legend, candidates }: { legend: string; candidates: readonly string[] }) {
  const [choice, setChoice] = useState(candidates.length === 0 ? '' : null);
  return (
    <fieldset className="staff-field staff-candidates">
      <legend>{legend}</legend>
      {candidates.map((candidate, at) => (
        <label key={candidate}>
          <input
            type="radio"
            name="choice"
            value={candidate}
            data-number={at + 1}
            onChange={() => setChoice(candidate)}
          />
          <span>
            {at < 9 ? <kbd>{at + 1}</kbd> : null} {candidate}
          </span>
        </label>
      ))}
      {candidates.length > 0 ? (
        <label>
          <input type="radio" name="choice" value="" onChange={() => setChoice('')} />
          <span>{texts.other}</span>
        </label>
      ) : null}
      <input
        aria-label={texts.otherText}
        name="text"
        maxLength={1_000}
        required={choice === ''}
        onFocus={(event) => {
          const other = event.target.form?.querySelector<HTMLInputElement>('input[name="choice"][value=""]');
          if (other && !other.checked) other.click();
        }}
      />
    </fieldset>
  );
}
