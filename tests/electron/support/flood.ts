/** Opens connections that say nothing, drip a header, or owe a body; tells how many were made so far. */
export const floodSource = `
  const { connect } = require('node:net');
  const port = Number(process.argv[1]);
  const kinds = ['', 'GET / HTTP/1.1\\r\\nHost: 127', 'POST /api/pdf HTTP/1.1\\r\\nHost: 127.0.0.1:' + port + '\\r\\nContent-Length: 99\\r\\n\\r\\n{'];
  let made = 0, begun = 0;
  const batch = () => {
    for (let i = 0; i < 50 && begun < 10000; i += 1) {
      const words = kinds[begun++ % 3];
      const socket = connect({ port, host: '127.0.0.1' }, () => { socket.write(words); made += 1; if (made % 500 === 0) console.log(made); });
      socket.on('error', () => {});
      socket.resume();
    }
  };
  setInterval(batch, 25);
  setTimeout(() => process.exit(0), 150000);
`;

/**
 * How many times longer a piece of work takes here and now than it has the processor: 1 on a machine with nothing else
 * to do. What waits for this process alone is no part of it.
 */
export function howBusy(): number {
  const [began, before] = [performance.now(), process.cpuUsage()];
  let workedMs = 0;
  while (workedMs < 10) {
    const { user, system } = process.cpuUsage(before);
    workedMs = (user + system) / 1000;
  }
  return Math.max(1, (performance.now() - began) / workedMs);
}
