import { ActionForm } from '../components/action-form';
import { Door } from '../components/door';
import { NewPassword } from '../components/password-fields';
import { theStaffSide } from '../guard/current';
import { door } from '../messages/door';
import { choosePassword } from './actions';

/** To choose a password, by a link that was sent. */
export default async function NewPasswordPage({
  searchParams,
}: {
  searchParams: Promise<{ token?: string | string[] }>;
}) {
  await theStaffSide();
  const token = [(await searchParams).token].flat()[0] ?? '';
  return (
    <Door title={door.newPassword.heading}>
      <ActionForm action={choosePassword} submit={door.newPassword.button}>
        <input type="hidden" name="token" value={token} />
        <NewPassword />
      </ActionForm>
      <p>
        <a href="/staff/forgotten-password">{door.newPassword.ask}</a>
      </p>
    </Door>
  );
}
