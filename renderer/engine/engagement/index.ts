export { engagementFrom } from './readEngagement.ts';
export { judgeEngagement, type EngagementAsked } from './judgeEngagement.ts';
