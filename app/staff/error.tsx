'use client';

import { Door } from './components/door';
import { Sorry } from './components/sorry';
import { staff } from './messages/en';

/** Anything unforeseen that no page caught. */
export default function Failed() {
  return (
    <Door title={staff.failed.heading}>
      <Sorry text={staff.failed.text} />
    </Door>
  );
}
