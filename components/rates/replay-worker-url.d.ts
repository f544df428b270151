/** The address of a worker's script, by Vite. */
declare module '*?worker&url' {
  const address: string;
  export default address;
}
