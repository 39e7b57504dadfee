import { accountTexts } from '../messages/account';
import { door } from '../messages/door';
import { Field } from './field';

/** The password that somebody has. */
export function OwnPassword({
  name = 'password',
  label = accountTexts.password,
}: {
  name?: string;
  label?: string;
}) {
  return <Field name={name} type="password" label={label} autoComplete="current-password" required />;
}

/** A password to be chosen. */
export function NewPassword() {
  const { password: label, hint } = door.newPassword;
  return (
    <Field name="password" type="password" label={label} hint={hint} autoComplete="new-password" required />
  );
}
