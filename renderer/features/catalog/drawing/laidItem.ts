import type { Dimension, PlacedText } from '../../../components/StackDrawing/labels.ts';
import type { Outline } from '../../../components/StackDrawing/outline.ts';
import type { ScaleBar } from '../../../components/StackDrawing/scaleBar.ts';

/** An item as it is drawn. */
export interface ItemLayout {
  widthPx: number;
  heightPx: number;
  outlines: Outline[];
  dimensions: Dimension[];
  witness: string[];
  notes: PlacedText[];
  scale: ScaleBar;
  /** The lever is not to scale. */
  broken: boolean;
}
