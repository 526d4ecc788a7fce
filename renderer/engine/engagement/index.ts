export { engagementFrom } from './readEngagement.ts';
export { judgeEngagement, type EngagementAsked, type LimitsAsked } from './judgeEngagement.ts';
