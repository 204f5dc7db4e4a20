/** A library for AudioWorklets: importing it registers a processor, by globals that a worklet has. */
declare module "signalsmith-stretch" {
  const createNode: unknown;
  export default createNode;
}
