import { hash, verify } from '@node-rs/argon2';
import { APIError, betterAuth } from 'better-auth';
import { drizzleAdapter } from 'better-auth/adapters/drizzle';
import { twoFactor } from 'better-auth/plugins';
import type { StaffDatabase } from '@/db/clients/staff';
import { personById } from '@/db/repositories/people';
import { getProgramme } from '@/db/repositories/programme';
import * as access from '@/db/schema/access';
import { RESET_HOURS, resetLetter } from './letters';
import type { Mailer } from './mail';
import { LONGEST_PASSWORD, SHORTEST_PASSWORD } from './passwords';

/** Name of the header by which our own server says from which address a request came. */
export const CLIENT_ADDRESS = 'x-fencerow-client';
/** Where the library believes its routes to be; none is open to the network: only our actions ask it. */
export const AUTH_PATH = '/staff/auth';

const HOUR = 3600;
/** What argon2id costs: 19 MiB, two passes, one lane (OWASP, Password Storage Cheat Sheet). */
const ARGON2 = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

export interface AuthOptions {
  db: StaffDatabase;
  /** Address of the staff side as people type it, without a slash at its end. */
  address: string;
  /** Signs cookies and encrypts second factors: 32 characters or more. */
  secret: string;
  mail: Mailer;
  /** Name that authenticator programs show. */
  issuer: string;
}

/**
 * Accounts: e-mail and password (argon2id), sessions in PostgreSQL, a new password by mail, a second factor by
 * time-based codes (RFC 6238), and limits on how often an address may try. Nobody can sign up by themselves, and a
 * closed account gets no session.
 */
export function makeAuth({ db, address, secret, mail, issuer }: AuthOptions) {
  const secure = address.startsWith('https://');
  return betterAuth({
    appName: issuer,
    baseURL: address,
    basePath: AUTH_PATH,
    secret,
    trustedOrigins: [address],
    telemetry: { enabled: false },
    database: drizzleAdapter(db, {
      provider: 'pg',
      schema: {
        user: access.person,
        session: access.session,
        account: access.credential,
        verification: access.verification,
        twoFactor: access.secondFactor,
        rateLimit: access.throttle,
      },
    }),
    emailAndPassword: {
      enabled: true,
      disableSignUp: true,
      minPasswordLength: SHORTEST_PASSWORD,
      maxPasswordLength: LONGEST_PASSWORD,
      password: { hash: hashPassword, verify: ({ hash: stored, password }) => verify(stored, password) },
      resetPasswordTokenExpiresIn: RESET_HOURS * HOUR,
      revokeSessionsOnPasswordReset: true,
      sendResetPassword: async ({ user, token }) => {
        const person = await personById(db, user.id);
        if (!person || person.closedAt) return;
        const programme = (await getProgramme(db))?.name ?? issuer;
        await mail(resetLetter(person, programme, passwordLink(address, token)));
      },
    },
    session: { expiresIn: 12 * HOUR, disableSessionRefresh: true },
    plugins: [twoFactor({ issuer, twoFactorCookieMaxAge: 600 })],
    rateLimit: {
      enabled: true,
      storage: 'database',
      window: 60,
      max: 60,
      customRules: {
        '/sign-in/email': { window: 60, max: 10 },
        '/request-password-reset': { window: 300, max: 5 },
        '/reset-password': { window: 300, max: 10 },
        '/two-factor/*': { window: 60, max: 10 },
      },
    },
    databaseHooks: {
      session: {
        create: {
          before: async (session) => {
            const person = await personById(db, session.userId);
            if (!person || person.closedAt)
              throw new APIError('UNAUTHORIZED', { message: 'The account is closed.' });
          },
        },
      },
    },
    advanced: {
      cookiePrefix: 'fencerow',
      useSecureCookies: secure,
      defaultCookieAttributes: { sameSite: 'strict', httpOnly: true, secure, path: '/' },
      ipAddress: { ipAddressHeaders: [CLIENT_ADDRESS] },
    },
    logger: { level: 'error' },
  });
}

export type Auth = ReturnType<typeof makeAuth>;

/** The argon2id hash of a password, in PHC form. */
export function hashPassword(password: string): Promise<string> {
  return hash(password, ARGON2);
}

/** The page where a password is chosen, for a token that was sent. */
export function passwordLink(address: string, token: string): string {
  return `${address}/staff/new-password?token=${encodeURIComponent(token)}`;
}
