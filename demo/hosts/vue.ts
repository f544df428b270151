import { createApp } from 'vue';
import Desk from './VueDesk.vue';
import { readDocuments } from './desk-documents.js';

createApp(Desk, { ...(await readDocuments()) }).mount('#main');
