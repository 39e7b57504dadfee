/** Markup that our own figures made, where text is escaped. */
export function Picture({ markup, className }: { markup: string; className?: string }) {
  // biome-ignore lint/security/noDangerouslySetInnerHtml: markup made by our own figures, text escaped there
  return <div className={className} dangerouslySetInnerHTML={{ __html: markup }} />;
}
