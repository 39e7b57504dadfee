/** What the server's programs get to see: no `PG…` variable that would lead them elsewhere, messages in English. */
export function plainEnvironment(): NodeJS.ProcessEnv {
  return { NODE_ENV: process.env.NODE_ENV, PATH: process.env.PATH, LC_ALL: 'C', TZ: 'UTC' };
}
