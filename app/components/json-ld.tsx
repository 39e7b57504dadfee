/** Data for programs that read pages; the framework writes it so that no text in it can end the element. */
export function JsonLd({ value }: { value: object }) {
  return <script type="application/ld+json">{JSON.stringify(value)}</script>;
}
