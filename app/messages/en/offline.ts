/** Without signal. */
export const offline = {
  heading: 'No signal',
  text: 'The site cannot be reached from here just now. Nothing is lost: try again when there is a connection.',
  kept: 'Pages that can be read without signal',
  none: 'No page of a county has been kept in this browser yet. Each one that you open is.',
  others: 'A kept page says when it was kept: its numbers may have changed since.',
  note: 'Read without signal: this page was kept on {when}. Its numbers may have changed since.',
};
