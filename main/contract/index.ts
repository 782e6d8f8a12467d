export { contract, shopStateSchema, type ShopState } from './contract.ts';
export * from './records.ts';
export * from './drafts.ts';
export * from './review.ts';
export { type KeptPicture } from './exchange.ts';
