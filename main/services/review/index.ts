export { openReviews, type Reviews } from './open-reviews.ts';
export { openReviewer, type Reviewer } from './reviewer.ts';
export { reviewServices } from './review-services.ts';
