import { closeClient } from '@/db/clients/connect';
import { type StaffDatabase, staffClient } from '@/db/clients/staff';
import { loadVocabulary } from '@/db/repositories/vocabulary';
import { type Auth, makeAuth } from './auth';
import { type Mailer, makeMailer } from './mail';

/** What the process that serves the staff side was started with. */
export interface StaffSettings {
  /** Address of the database for the staff's role. */
  staffUrl: string;
  /** Address of the staff side, without a slash at its end. */
  address: string;
  /** Address of the public site, without a slash at its end. */
  publicSite: string;
  secret: string;
  /** As FENCEROW_MAIL has it. */
  mail: string | undefined;
  mailFrom: string;
}

/** What pages and actions of the staff side work with. */
export interface StaffSide {
  settings: StaffSettings;
  db: StaffDatabase;
  auth: Auth;
  mail: Mailer;
}

/** The bundled pages and the server around them are two copies of this module; the process has one of each thing. */
interface Holder {
  [KEY]?: { settings: StaffSettings; side?: Promise<StaffSide> };
}

const KEY = Symbol.for('fencerow.staffSide');

/** Opens the staff side in this process. Without it, as in the public server, its pages do not exist. */
export function openStaffSide(settings: StaffSettings): void {
  (globalThis as Holder)[KEY] = { settings };
}

/** The staff side, or null in a process that does not serve it. */
export async function staffSide(): Promise<StaffSide | null> {
  const held = (globalThis as Holder)[KEY];
  if (!held) return null;
  held.side ??= start(held.settings);
  held.side.catch(() => {
    held.side = undefined;
  });
  return held.side;
}

/** Ends its connections, so that the process can end. */
export async function closeStaffSide(): Promise<void> {
  const held = (globalThis as Holder)[KEY];
  delete (globalThis as Holder)[KEY];
  if (held?.side) await closeClient((await held.side).db);
}

async function start(settings: StaffSettings): Promise<StaffSide> {
  const { staffUrl, address, secret } = settings;
  const db = staffClient(staffUrl);
  const mail = makeMailer(settings.mail, settings.mailFrom);
  const auth = makeAuth({ db, address, secret, mail, issuer: 'Fencerow' });
  await loadVocabulary(db).catch(async (error: unknown) => {
    await closeClient(db);
    throw error;
  });
  return { settings, db, auth, mail };
}
