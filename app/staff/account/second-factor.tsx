'use client';

import { ActionForm } from '../components/action-form';
import { Field } from '../components/field';
import { OwnPassword } from '../components/password-fields';
import { accountTexts as texts } from '../messages/account';
import { finishSecondFactor, startSecondFactor } from './actions';

/** To set up a second factor: first the key, then a code that proves that the program has it. */
export function SecondFactorSetup() {
  return (
    <>
      <h3>{texts.first}</h3>
      <ActionForm action={startSecondFactor} submit={texts.start} present={present}>
        <OwnPassword />
      </ActionForm>
      <h3 className="staff-next">{texts.proof}</h3>
      <ActionForm action={finishSecondFactor} submit={texts.finish}>
        <Field name="code" label={texts.code} autoComplete="one-time-code" required />
      </ActionForm>
    </>
  );
}

function present({ square = '', key = '', codes = '' }: Record<string, string>) {
  const [size, path] = square.split('|');
  return (
    <>
      <svg
        className="staff-qr"
        viewBox={`0 0 ${size} ${size}`}
        width="200"
        height="200"
        role="img"
        aria-label={texts.square}
      >
        <rect width="100%" height="100%" fill="#fff" />
        <path d={path} fill="#000" />
      </svg>
      <p>
        {texts.key} <code className="staff-shown">{key}</code>
      </p>
      <p>{texts.recovery}</p>
      <ul className="staff-codes">
        {codes.split(' ').map((code) => (
          <li key={code}>
            <code>{code}</code>
          </li>
        ))}
      </ul>
    </>
  );
}
