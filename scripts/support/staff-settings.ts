import { UserError } from '@/db/errors';
import { newPassword } from '@/db/roles';
import { keepPasswords, keptPasswords } from '@/db/server/passwords';
import type { StaffSettings } from '@/lib/access/staff-side';

type Environment = Readonly<Record<string, string | undefined>>;

/** Where the staff side is when nobody says otherwise. */
export const STAFF_PORT = 3001;

/**
 * What the staff side is started with, from the environment: FENCEROW_STAFF_ADDRESS, FENCEROW_PUBLIC_ADDRESS,
 * FENCEROW_MAIL, FENCEROW_MAIL_FROM, FENCEROW_SECRET (else one that the data folder keeps) and FENCEROW_BEHIND_PROXY.
 *
 * @throws UserError for an address that is none, and for a secret that is too short
 */
export function staffSettings(
  staffUrl: string,
  dataFolder: string,
  env: Environment,
): Omit<StaffSettings, 'address'> & { address?: string; behindProxy: boolean } {
  return {
    staffUrl,
    address: readAddress(env, 'FENCEROW_STAFF_ADDRESS'),
    publicSite: readAddress(env, 'FENCEROW_PUBLIC_ADDRESS') ?? 'http://127.0.0.1:3000',
    secret: staffSecret(dataFolder, env),
    mail: env.FENCEROW_MAIL,
    mailFrom: env.FENCEROW_MAIL_FROM ?? 'fencerow@localhost',
    behindProxy: env.FENCEROW_BEHIND_PROXY === '1',
  };
}

/** Address of the staff side as people type it. */
export function staffAddress(env: Environment): string {
  return readAddress(env, 'FENCEROW_STAFF_ADDRESS') ?? `http://127.0.0.1:${STAFF_PORT}`;
}

function readAddress(env: Environment, name: string): string | undefined {
  const text = env[name];
  if (!text) return undefined;
  const url = URL.canParse(text) ? new URL(text) : null;
  if (url && /^https?:$/.test(url.protocol) && url.pathname === '/' && !url.search) return url.origin;
  throw new UserError(
    `${name} is “${text}”.`,
    'Give an address without a path, as https://staff.example.org.',
  );
}

function staffSecret(dataFolder: string, env: Environment): string {
  const given = env.FENCEROW_SECRET;
  if (given && given.length < 32) {
    throw new UserError('FENCEROW_SECRET is too short.', 'Give 32 random characters or more.');
  }
  const kept = given ?? keptPasswords(dataFolder, 'staff side').secret;
  if (kept) return kept;
  const secret = newPassword();
  keepPasswords(dataFolder, 'staff side', { secret });
  return secret;
}
