import { redirect } from 'next/navigation';
import { ActionForm } from '../components/action-form';
import { Door } from '../components/door';
import { Field } from '../components/field';
import { OwnPassword } from '../components/password-fields';
import { currentPerson } from '../guard/current';
import { door } from '../messages/door';
import { signIn } from './actions';
import { next as nextPage } from './schemas';

type Search = Promise<{ next?: string | string[]; changed?: string }>;

/** To sign in. Who is signed in already goes on. */
export default async function SignInPage({ searchParams }: { searchParams: Search }) {
  const search = await searchParams;
  const next = nextPage.parse([search.next].flat()[0]);
  if (await currentPerson()) redirect(next);
  return (
    <Door title={door.signIn.heading}>
      {search.changed ? <p className="staff-good">{door.signIn.again}</p> : null}
      <ActionForm action={signIn} submit={door.signIn.button}>
        <input type="hidden" name="next" value={next} />
        <Field name="email" type="email" label={door.signIn.email} autoComplete="username" required />
        <OwnPassword label={door.signIn.password} />
      </ActionForm>
      <p>
        <a href="/staff/forgotten-password">{door.signIn.forgotten}</a>
      </p>
      <p className="quiet">{door.signIn.noAccount}</p>
    </Door>
  );
}
