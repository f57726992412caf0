/** seedrandom ships its generators one file each, without types for them. */
declare module 'seedrandom/lib/alea.js' {
  export default function alea(seed: string): () => number;
}
