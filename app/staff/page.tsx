import { staffPage } from './guard/staff-page';

/** The start of the staff side. */
export default staffPage('home.see', async ({ person }) => ({
  title: `Good day, ${person.name}`,
  content: <p>{person.email}</p>,
}));
