import { Door } from './components/door';
import { Sorry } from './components/sorry';
import { staff } from './messages/en';

/** What a process that does not serve the staff side shows in its place. */
export default function NotFound() {
  return (
    <Door title={staff.notFound.heading}>
      <Sorry text={staff.notFound.text} />
    </Door>
  );
}
