/**
 * Take what is written to a stream from now on.
 * @param heard called with each piece of it
 * @returns gives what was taken, and the stream its own way of writing back
 */
export function taken(stream, heard = () => {}) {
  const { write } = stream;
  let text = '';
  stream.write = (chunk, ...rest) => {
    text += chunk;
    heard(String(chunk));
    const written = rest.find((one) => typeof one === 'function');
    if (written) process.nextTick(written);
    return true;
  };
  return () => {
    stream.write = write;
    // The program leaves listeners behind that end with its process.
    stream.removeAllListeners('error');
    return text;
  };
}
