import { Sorry } from '../components/sorry';
import { staffPage } from '../guard/staff-page';
import { staff } from '../messages/en';

/** Every address of the staff side that has no page; strangers are led to sign in first, so that they learn nothing. */
export default staffPage('home.see', async () => ({
  title: staff.notFound.heading,
  status: 404,
  content: <Sorry text={staff.notFound.text} />,
}));
