// The layout library's own worker program answers messages by itself once it runs where there is no document.
import 'elkjs/lib/elk-worker.min.js';
