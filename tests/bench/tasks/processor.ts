/** Seconds of processor this process has taken: what a busy machine does not stretch. */
export function processorS(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}
