/** A picture made by our own figures: their text is escaped there, and they carry no style attribute and no script. */
export function Drawing({ markup, className }: { markup: string; className: string }) {
  // biome-ignore lint/security/noDangerouslySetInnerHtml: markup made by our own figures, text escaped there
  return <div className={className} dangerouslySetInnerHTML={{ __html: markup }} />;
}
