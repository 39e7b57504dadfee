import { ActionForm } from '../components/action-form';
import { Door } from '../components/door';
import { Field } from '../components/field';
import { theStaffSide } from '../guard/current';
import { door } from '../messages/door';
import { askForPassword } from './actions';

/** To ask for a new password. */
export default async function ForgottenPasswordPage() {
  await theStaffSide();
  return (
    <Door title={door.forgotten.heading}>
      <p>{door.forgotten.text}</p>
      <ActionForm action={askForPassword} submit={door.forgotten.button}>
        <Field name="email" type="email" label={door.signIn.email} autoComplete="username" required />
      </ActionForm>
      <p>
        <a href="/staff/sign-in">{door.signIn.heading}</a>
      </p>
    </Door>
  );
}
