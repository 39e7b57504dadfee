import { AUTH_PATH, type Auth, CLIENT_ADDRESS } from './auth';

/** What the library of accounts answered. */
export interface AuthAnswer {
  ok: boolean;
  status: number;
  /** Its own code of what is wrong, as INVALID_EMAIL_OR_PASSWORD; '' where all is well. */
  code: string;
  data: Record<string, unknown>;
  /** Cookies to set, each a Set-Cookie line. */
  cookies: string[];
}

/**
 * Asks the library of accounts for something, as if over the network, so that its limits on how often somebody may try
 * hold. Only our own actions do so: the address is not served.
 *
 * @param path of the library, as `/sign-in/email`
 * @param from headers of the request that asks: its cookie, its device and its address go along
 */
export async function askAuth(
  auth: Auth,
  path: string,
  body: Record<string, unknown>,
  from: Headers,
): Promise<AuthAnswer> {
  const address = String(auth.options.baseURL);
  const headers = new Headers({ 'content-type': 'application/json', origin: address });
  for (const name of ['cookie', 'user-agent', CLIENT_ADDRESS]) {
    const value = from.get(name);
    if (value) headers.set(name, value);
  }
  const response = await auth.handler(
    new Request(`${address}${AUTH_PATH}${path}`, { method: 'POST', headers, body: JSON.stringify(body) }),
  );
  const data = readJson(await response.text());
  return {
    ok: response.ok,
    status: response.status,
    code: response.ok ? '' : String(data.code ?? response.status),
    data,
    cookies: response.headers.getSetCookie(),
  };
}

function readJson(text: string): Record<string, unknown> {
  try {
    return (JSON.parse(text) as Record<string, unknown> | null) ?? {};
  } catch {
    return {};
  }
}
