/** Both clients, for commands and tests. Public pages import `db/clients/public`, which knows no private table. */
export { closeClient } from './connect';
export { type PublicDatabase, publicClient } from './public';
export { type StaffDatabase, staffClient } from './staff';
