/** The dashboard in sentences, for a screen reader. */

import { Box, Text } from 'ink';
import { type SpokenInput, spokenLines } from '../rows/spoken.js';

export function Spoken(input: SpokenInput) {
  return (
    <Box flexDirection="column">
      {spokenLines(input).map((line, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a line is known by its place only
        <Text key={i}>{line}</Text>
      ))}
    </Box>
  );
}
