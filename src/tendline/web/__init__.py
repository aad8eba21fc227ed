"""The app for a laptop browser and a tablet: pages that ask the engine and draw its answer."""
