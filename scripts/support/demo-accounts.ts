import type { StaffDatabase } from '@/db/clients';
import { addPerson, personByEmail, setCounties } from '@/db/repositories/people';
import { newPassword } from '@/db/roles';
import { givePassword } from '@/lib/access/invite';
import type { Role } from '@/lib/vocabulary/roles';

/** How to sign in to the demonstration. */
export interface DemoAccount {
  email: string;
  password: string;
  role: Role;
}

/** Simulated people, one of each role. */
const PEOPLE: readonly { name: string; role: Role }[] = [
  { name: 'Edna Coulter', role: 'educator' },
  { name: 'Anselm Field', role: 'analyst' },
  { name: 'Petra Row', role: 'publisher' },
  { name: 'Adam Gate', role: 'administrator' },
];
/** Counties of the simulated educator: Red Willow, Furnas and Frontier, Nebraska. */
const COUNTIES = ['31145', '31065', '31063'];

/** Makes one simulated account of each role where they are missing, and gives each a new random password. */
export async function demoAccounts(db: StaffDatabase): Promise<DemoAccount[]> {
  const accounts: DemoAccount[] = [];
  for (const { name, role } of PEOPLE) {
    const email = `${role}@example.org`;
    const person = (await personByEmail(db, email)) ?? (await addPerson(db, { name, email, roles: [role] }));
    if (role === 'educator') await setCounties(db, { id: person.id, counties: COUNTIES });
    const password = newPassword().slice(0, 16);
    await givePassword(db, person.id, password);
    accounts.push({ email, password, role });
  }
  return accounts;
}

/** How to sign in, in words. */
export function signInWords(url: string, accounts: readonly DemoAccount[]): string {
  const lines = accounts.map(({ email, password }) => `  ${email.padEnd(26)} password ${password}`);
  return `Staff side: ${url}/staff, one simulated account of each role\n${lines.join('\n')}\n`;
}
