import { staff } from '../messages/en';

/** What is the matter, and the way back. */
export function Sorry({ text }: { text: string }) {
  return (
    <>
      <p>{text}</p>
      <p>
        <a href="/staff">{staff.toHome}</a>
      </p>
    </>
  );
}
