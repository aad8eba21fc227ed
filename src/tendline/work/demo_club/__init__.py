"""An invented club with invented people: what tendline shows before it knows a real one."""
