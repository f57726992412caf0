/** What is drawn, without that which all charts have in common. */

import type { PlotOptions } from '@observablehq/plot';

export type Drawing = Omit<PlotOptions, 'width' | 'document' | 'style' | 'className'>;
