/**
 * Longest stretch of this process's own processor time, in milliseconds, in which a call does not ask whether it is
 * to stop. Other work on the machine does not count, so it says the same on a busy machine as on an idle one.
 */
export function longestSilence(call: (cancelled: () => boolean) => void): number {
  let longest = 0;
  let last = processorTime();
  const asked = () => {
    const now = processorTime();
    longest = Math.max(longest, now - last);
    last = now;
    return false;
  };
  call(asked);
  asked();
  return longest;
}

function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
