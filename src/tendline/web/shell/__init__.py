"""What all pages share: the frame around them, addresses, rendering, errors."""
