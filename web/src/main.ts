import { mount } from 'svelte';
import App from './App.svelte';
import './look.css';

// The look that was chosen stays with this browser; without one it follows the
// system.
const look = localStorage.getItem('look');
if (look) document.documentElement.dataset.look = look;

mount(App, { target: document.getElementById('page')! });
