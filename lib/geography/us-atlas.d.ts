/** Keeps the type checker from inferring a literal type for the 840 kB file. */
declare module 'us-atlas/counties-10m.json' {
  import type { GeometryCollection, Topology } from 'topojson-specification';

  const topology: Topology<{
    counties: GeometryCollection<{ name: string }>;
    states: GeometryCollection<{ name: string }>;
    nation: GeometryCollection;
  }>;
  export default topology;
}
