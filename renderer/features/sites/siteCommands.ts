import { createAsking } from '../task/asking.ts';

/** What the palette may ask of the sites' hall. */
export type SiteWish = 'add-site' | 'add-interface';

export const siteAsking = createAsking<SiteWish>();
